using EarHelp.Web.Pages;

namespace EarHelp.Web.Serving;

/// <summary>
/// The emergency page as a file: written into the data folder whenever an edition is taken into service, so that it can be shown,
/// copied or served by anything when this program cannot.
/// </summary>
public sealed class EmergencyFile(ServiceSettings settings)
{
    ReadOnlyMemory<byte>? _page;

    /// <summary>The last page that was written, else the one that came with the content.</summary>
    public ReadOnlyMemory<byte> Page => _page ??= Read();

    /// <summary>Whether the page that was written last is of a signed edition; null: none was written yet.</summary>
    public bool? IsSigned { get; private set; }

    string Kept => Path.Combine(settings.Data, EmergencyPage.FileName);

    public void Keep(Words words)
    {
        var page = EmergencyPage.Write(words);
        var beside = Kept + ".new";
        File.WriteAllBytes(beside, page.ToArray());
        File.Move(beside, Kept, overwrite: true);
        _page = page;
        IsSigned = words.IsSigned;
    }

    ReadOnlyMemory<byte> Read()
    {
        foreach (var file in (string[])[Kept, Path.Combine(settings.Root, "content", EmergencyPage.FileName)])
        {
            if (File.Exists(file))
                return File.ReadAllBytes(file);
        }

        return ReadOnlyMemory<byte>.Empty;
    }
}
