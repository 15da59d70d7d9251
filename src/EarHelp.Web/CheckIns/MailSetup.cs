using System.Globalization;
using System.Net;
using EarHelp.Clinic.Requests;
using EarHelp.Exchange.Mail;
using EarHelp.Web.Serving;

namespace EarHelp.Web.CheckIns;

/// <summary>What an operator sets about messages to patients; without a server none are sent, and questions wait on the patients' pages.</summary>
/// <param name="Address">The address of this service in links, as patients reach it.</param>
public sealed record MailSetup(MailSettings Server, Uri Address)
{
    const string ServerName = "mail-server", From = "mail-from", Security = "mail-security", User = "mail-user", PasswordFile = "mail-password-file", Certificate = "mail-certificate", PublicAddress = "public-address";

    /// <summary>The usual port for handing over (RFC 6409).</summary>
    const int UsualPort = 587;

    static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <returns>Null if no server is named.</returns>
    /// <exception cref="SettingsException">A setting cannot be used; says which and why.</exception>
    public static MailSetup? Read(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        if (configuration[ServerName] is not { Length: > 0 } named)
            return null;
        var (host, port) = ReadServer(named);
        var user = configuration[User] is { Length: > 0 } account ? account : null;
        var server = new MailSettings(
            host, port, ReadFrom(configuration[From]), ReadSecurity(configuration[Security], host), user, ReadPassword(configuration[PasswordFile], user), ReadCertificate(configuration[Certificate]), Patience);
        return new MailSetup(server, ReadAddress(configuration[PublicAddress]));
    }

    static (string Host, int Port) ReadServer(string written)
    {
        var parts = written.Split(':');
        return parts switch
        {
            [{ Length: > 0 } host] => (host, UsualPort),
            [{ Length: > 0 } host, var number] when int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var port) && port is > 0 and <= IPEndPoint.MaxPort => (host, port),
            _ => throw new SettingsException($"\"{written}\" cannot be used for --{ServerName}: write a name and a port, for example mail.example.org:587."),
        };
    }

    static string ReadFrom(string? written) => written is not null && ContactCheck.IsEmail(written)
        ? written
        : throw new SettingsException($"\"{written}\" cannot be used for --{From}: name the address that messages to patients come from.");

    static MailSecurity ReadSecurity(string? written, string host) => written switch
    {
        null or "" or "starttls" => MailSecurity.StartTls,
        "tls" => MailSecurity.Tls,
        "none" when host is "localhost" or "127.0.0.1" => MailSecurity.None,
        "none" => throw new SettingsException($"--{Security} none can be used only with a server on this machine, and \"{host}\" is another: write starttls or tls."),
        _ => throw new SettingsException($"\"{written}\" cannot be used for --{Security}: write starttls, tls or none."),
    };

    static string? ReadPassword(string? file, string? user)
    {
        if (user is null)
            return null;
        return file is { Length: > 0 } && File.Exists(file)
            ? File.ReadAllText(file).TrimEnd('\r', '\n')
            : throw new SettingsException($"--{User} needs its password: name a file that holds nothing else with --{PasswordFile}; \"{file}\" is not there.");
    }

    static string? ReadCertificate(string? file)
    {
        if (file is not { Length: > 0 })
            return null;
        return File.Exists(file) ? Path.GetFullPath(file) : throw new SettingsException($"\"{file}\" in --{Certificate} is not there.");
    }

    static Uri ReadAddress(string? written) => Uri.TryCreate(written, UriKind.Absolute, out var address) && address is { Query: "", Fragment: "", AbsolutePath: "/" }
        && (address.Scheme == Uri.UriSchemeHttps || (address.Scheme == Uri.UriSchemeHttp && address.IsLoopback))
        ? address
        : throw new SettingsException($"\"{written}\" cannot be used for --{PublicAddress}: with --{ServerName}, write the https address by which patients reach this service, without a path.");
}
