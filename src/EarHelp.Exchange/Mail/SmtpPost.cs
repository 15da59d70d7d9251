using System.Net.Security;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace EarHelp.Exchange.Mail;

/// <summary>Hands messages over to an SMTP server, one connection each.</summary>
public sealed class SmtpPost(MailSettings settings, TimeProvider clock) : IPost
{
    readonly X509Certificate2? _trusted = settings.TrustedCertificate is { } file ? X509CertificateLoader.LoadCertificateFromFile(file) : null;

    public async ValueTask<Delivery> SendAsync(OutgoingMessage message, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(message);
        using var client = new SmtpClient { Timeout = (int)settings.Patience.TotalMilliseconds, CheckCertificateRevocation = false };
        client.ServerCertificateValidationCallback = IsBelieved;
        if (!await IsReachedAsync(client, cancellation).ConfigureAwait(false))
            return Delivery.NotNow;
        using var written = Write(message);
        return await HandOverAsync(client, written, cancellation).ConfigureAwait(false);
    }

    async ValueTask<bool> IsReachedAsync(SmtpClient client, CancellationToken cancellation)
    {
        try
        {
            await client.ConnectAsync(settings.Host, settings.Port, OptionsOf(settings.Security), cancellation).ConfigureAwait(false);
            if (settings.User is { } user)
                await client.AuthenticateAsync(user, settings.Password ?? string.Empty, cancellation).ConfigureAwait(false);
            return true;
        }
        catch (Exception away) when (IsOfServer(away))
        {
            return false;
        }
    }

    /// <summary>The server's codes: RFC 5321, 4.2.1 (4yz later, 5yz never).</summary>
    static async ValueTask<Delivery> HandOverAsync(SmtpClient client, MimeMessage written, CancellationToken cancellation)
    {
        const int Permanent = 500;
        try
        {
            await client.SendAsync(written, cancellation).ConfigureAwait(false);
            return Delivery.Accepted;
        }
        catch (SmtpCommandException answer)
        {
            return (int)answer.StatusCode >= Permanent ? Delivery.Refused : Delivery.NotNow;
        }
        catch (Exception cut) when (IsOfServer(cut))
        {
            return Delivery.Unknown;
        }
    }

    static bool IsOfServer(Exception fault) =>
        fault is ServiceNotConnectedException or ServiceNotAuthenticatedException or ProtocolException or CommandException or AuthenticationException
            or SslHandshakeException or NotSupportedException or IOException or SocketException or TimeoutException;

    /// <summary>A subject and a text without a word about an ear; how to stop is in the header too (RFC 2369, RFC 8058).</summary>
    MimeMessage Write(OutgoingMessage message)
    {
        var from = MailboxAddress.Parse(settings.From);
        var written = new MimeMessage { MessageId = $"{message.Name}@{from.Domain}", Subject = message.Subject, Date = clock.GetUtcNow(), Body = new TextPart("plain") { Text = message.Text } };
        written.From.Add(from);
        written.To.Add(new MailboxAddress(null, message.To));
        written.Headers.Add("Auto-Submitted", "auto-generated");
        written.Headers.Add("List-Unsubscribe", $"<{message.StopAddress.AbsoluteUri}>");
        written.Headers.Add("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
        return written;
    }

    bool IsBelieved(object sender, X509Certificate? shown, X509Chain? chain, SslPolicyErrors errors) =>
        errors == SslPolicyErrors.None || (_trusted is not null && shown is not null && shown.GetRawCertData().AsSpan().SequenceEqual(_trusted.RawData));

    static SecureSocketOptions OptionsOf(MailSecurity security) => security switch
    {
        MailSecurity.StartTls => SecureSocketOptions.StartTls,
        MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
        _ => SecureSocketOptions.None,
    };
}
