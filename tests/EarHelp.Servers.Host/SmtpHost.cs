using System.Buffers;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Net;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace EarHelp.Servers.Host;

/// <summary>
/// A real SMTP server with STARTTLS on loopback, which puts each message as a file into a folder. Whoever is written to decides how it
/// behaves: refused@ is never taken, later@ not now, slow@ is taken after a while.
/// </summary>
static class SmtpHost
{
    static readonly TimeSpan Slow = TimeSpan.FromSeconds(3);

    /// <summary>Writes the port and the path of its certificate, and ends with standard input.</summary>
    public static async Task RunAsync(string folder, int port)
    {
        using var key = RSA.Create(2048);
        var request = new CertificateRequest("CN=127.0.0.1", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using var made = request.CreateSelfSigned(DateTimeOffset.UnixEpoch, new DateTimeOffset(2100, 1, 1, 0, 0, 0, TimeSpan.Zero));
        using var certificate = X509CertificateLoader.LoadPkcs12(made.Export(X509ContentType.Pkcs12), null);
        var pem = Path.Combine(folder, "certificate.pem");
        await File.WriteAllTextAsync(pem, made.ExportCertificatePem());
        var options = new SmtpServerOptionsBuilder().ServerName("loopback")
            .Endpoint(e => e.Endpoint(new IPEndPoint(IPAddress.Loopback, port)).Certificate(certificate)).Build();
        var parts = new ServiceProvider();
        parts.Add(new Folder(folder));
        parts.Add(new Door());
        using var stopping = new CancellationTokenSource();
        var serving = new SmtpServer.SmtpServer(options, parts).StartAsync(stopping.Token);
        await AnswersAsync(port);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{port} {pem}"));
        await Console.In.ReadToEndAsync();
        await stopping.CancelAsync();
        await serving.ContinueWith(_ => { }, TaskScheduler.Default);
    }

    static async Task AnswersAsync(int port)
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                using var client = new TcpClient();
                await client.ConnectAsync(IPAddress.Loopback, port);
                return;
            }
            catch (SocketException) when (tries < 100)
            {
                await Task.Delay(20);
            }
        }
    }

    sealed class Folder(string path) : MessageStore
    {
        int _count;

        public override async Task<SmtpResponse> SaveAsync(ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
        {
            if (transaction.To.Any(t => t.User == "slow"))
                await Task.Delay(Slow, cancellationToken);
            var isSecure = context.Pipe.IsSecure ? "secure" : "open";
            await File.WriteAllBytesAsync(Path.Combine(path, $"{Interlocked.Increment(ref _count):000}-{isSecure}.eml"), buffer.ToArray(), cancellationToken);
            return SmtpResponse.Ok;
        }
    }

    sealed class Door : MailboxFilter
    {
        public override Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancellationToken) => to.User switch
        {
            "refused" => throw new SmtpResponseException(new SmtpResponse(SmtpReplyCode.MailboxUnavailable, "No such address here.")),
            "later" => throw new SmtpResponseException(new SmtpResponse(SmtpReplyCode.ServiceUnavailable, "Come again.")),
            _ => Task.FromResult(true),
        };
    }
}
