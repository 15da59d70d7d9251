namespace EarHelp.Exchange.Mail;

/// <summary>The server to which messages for patients are handed over (SMTP, RFC 5321), and who sends them.</summary>
/// <param name="From">The address of the sender.</param>
/// <param name="Security">How the way to the server is closed to others.</param>
/// <param name="User">Null: the server asks for no account.</param>
/// <param name="TrustedCertificate">Path of a certificate (PEM) that is believed besides those that the machine believes; null: there is none.</param>
/// <param name="Patience">How long one step of the server may take.</param>
public sealed record MailSettings(
    string Host, int Port, string From, MailSecurity Security, string? User, string? Password, string? TrustedCertificate, TimeSpan Patience);

public enum MailSecurity
{
    /// <summary>TLS after STARTTLS (RFC 3207); without it nothing is sent.</summary>
    StartTls,

    /// <summary>TLS from the first byte (RFC 8314).</summary>
    Tls,

    /// <summary>Open: only for a server on the same machine.</summary>
    None,
}
