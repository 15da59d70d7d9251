using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace EarHelp.Web.Serving;

/// <summary>What an operator may set, by <c>--name value</c>, by an environment variable <c>EARHELP_NAME</c>, or not at all.</summary>
/// <param name="Root">The folder that holds <c>dialogs/</c> and <c>content/</c>.</param>
/// <param name="Data">Everything the service keeps; nobody else may write there.</param>
/// <param name="Proxies">Addresses whose X-Forwarded headers are believed; none by default.</param>
/// <param name="UnfinishedFor">How long a conversation without an outcome is kept after its last turn.</param>
/// <param name="RequestsAMinute">From one client; beyond it the fixed answer with the emergency text.</param>
/// <param name="RequestsASecond">From all clients together.</param>
public sealed record ServiceSettings(
    string Root,
    string Data,
    string Urls,
    ImmutableArray<IPAddress> Proxies,
    TimeSpan UnfinishedFor,
    int RequestsAMinute,
    int RequestsASecond)
{
    public const string DefaultUrls = "http://localhost:5080";

    /// <summary>The clinic's own calendar (iCalendar), as a file or an address: no visit is offered while it is busy. Null: there is none.</summary>
    public string? BusyCalendar { get; init; }

    /// <summary>A PostgreSQL database that several nodes share, <c>Host=...;Database=...;Username=...</c>. Null: LiteDB in the data folder.</summary>
    public string? Store { get; init; }

    /// <summary>An address of its own at which metrics are read, and nothing else. Null: only the socket in the data folder tells them.</summary>
    public Uri? MetricsUrl { get; init; }

    /// <summary>Encrypts the keys that seal what staff's browsers hold; the same on every node. Null: they are kept as they are.</summary>
    public X509Certificate2? KeysCertificate { get; init; }

    const int DefaultUnfinishedDays = 7;
    const int DefaultRequestsAMinute = 300;
    const int DefaultRequestsASecond = 2000;

    /// <exception cref="SettingsException">A setting cannot be used; says which and why.</exception>
    public static ServiceSettings Read(IConfiguration configuration)
    {
        var root = Path.GetFullPath(configuration["root"] ?? FindRoot());
        foreach (var folder in (string[])["dialogs", "content"])
        {
            if (!Directory.Exists(Path.Combine(root, folder)))
                throw new SettingsException($"There is no folder \"{folder}\" in {root}. Name the folder that holds both with --root.");
        }

        return new ServiceSettings(
            root,
            Path.GetFullPath(configuration["data"] ?? Path.Combine(root, "data")),
            configuration["urls"] ?? DefaultUrls,
            [.. Addresses(configuration["proxies"])],
            TimeSpan.FromDays(Whole(configuration, "unfinished-days", DefaultUnfinishedDays)),
            Whole(configuration, "requests-a-minute", DefaultRequestsAMinute),
            Whole(configuration, "requests-a-second", DefaultRequestsASecond))
        {
            Store = configuration["store"] is { Length: > 0 } store ? store : null,
            MetricsUrl = configuration["metrics-url"] is { Length: > 0 } url ? MetricsAddress(url) : null,
            KeysCertificate = configuration["keys-certificate"] is { Length: > 0 } file ? Certificate(file) : null,
            BusyCalendar = configuration["busy-calendar"] is { Length: > 0 } busy ? busy : null,
        };
    }

    /// <summary>The nearest folder, from the current one upwards and then from the program's upwards, that holds both.</summary>
    static string FindRoot()
    {
        foreach (var start in (string[])[Directory.GetCurrentDirectory(), AppContext.BaseDirectory])
        {
            for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
            {
                if (Directory.Exists(Path.Combine(folder.FullName, "dialogs")) && Directory.Exists(Path.Combine(folder.FullName, "content")))
                    return folder.FullName;
            }
        }

        throw new SettingsException("No folder above this one holds both \"dialogs\" and \"content\". Name it with --root.");
    }

    static int Whole(IConfiguration configuration, string name, int otherwise)
    {
        var written = configuration[name];
        if (written is null)
            return otherwise;
        return int.TryParse(written, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0
            ? number
            : throw new SettingsException($"\"{written}\" cannot be used for --{name}: write a whole number above 0.");
    }

    static Uri MetricsAddress(string written) =>
        Uri.TryCreate(written, UriKind.Absolute, out var url) && url is { Scheme: "http", Port: > 0, AbsolutePath: "/" }
            ? url
            : throw new SettingsException($"\"{written}\" cannot be used for --metrics-url: write an address with a port of its own, for example http://127.0.0.1:9464.");

    static X509Certificate2 Certificate(string file)
    {
        try
        {
            return X509Certificate2.CreateFromPemFile(file);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            throw new SettingsException($"The file \"{file}\" of --keys-certificate cannot be used: {fault.Message} Write a certificate and its private key into it, both as PEM.");
        }
    }

    static IEnumerable<IPAddress> Addresses(string? written)
    {
        foreach (var part in (written ?? string.Empty).Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            yield return IPAddress.TryParse(part, out var address)
                ? address
                : throw new SettingsException($"\"{part}\" in --proxies is not an address.");
        }
    }
}
