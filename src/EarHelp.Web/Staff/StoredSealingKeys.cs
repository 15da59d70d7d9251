using System.Xml.Linq;
using EarHelp.Clinic.Keeping;
using Microsoft.AspNetCore.DataProtection.Repositories;

namespace EarHelp.Web.Staff;

/// <summary>The keys of ASP.NET Core's data protection in our own store, so that every node opens what another has sealed.</summary>
/// <param name="folder">Keys that lie there as files are taken into a store that has none.</param>
sealed class StoredSealingKeys(ISealingKeys store, string folder) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements()
    {
        if (All() is { Count: > 0 } kept)
            return kept;
        if (Directory.Exists(folder))
        {
            foreach (var file in Directory.EnumerateFiles(folder, "*.xml"))
                StoreElement(XElement.Load(file), Path.GetFileNameWithoutExtension(file));
        }

        return All();
    }

    public void StoreElement(XElement element, string friendlyName)
    {
        ArgumentNullException.ThrowIfNull(element);
        store.AddAsync(new SealingKey(friendlyName, element.ToString(SaveOptions.DisableFormatting)), CancellationToken.None).AsTask().GetAwaiter().GetResult();
    }

    List<XElement> All() =>
        [.. store.AllAsync(CancellationToken.None).AsTask().GetAwaiter().GetResult().Select(k => XElement.Parse(k.Body))];
}
