using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace EarHelp.Storage.Postgres;

/// <summary>One named step of the tables. A step that was released is never changed, and only ever adds: the version before runs beside it.</summary>
sealed record Migration(string Name, string Sql)
{
    const string Folder = "EarHelp.Storage.Postgres.Migrations.";

    public string Hash => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Sql)));

    /// <summary>In the order of their names.</summary>
    public static ImmutableArray<Migration> All { get; } =
    [
        .. typeof(Migration).Assembly.GetManifestResourceNames()
            .Where(n => n.StartsWith(Folder, StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .Select(n => new Migration(n[Folder.Length..^".sql".Length], Read(n))),
    ];

    static string Read(string resource)
    {
        using var reader = new StreamReader(typeof(Migration).Assembly.GetManifestResourceStream(resource)!, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
