using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>A real nginx with the file of deploy/two-nodes, in which only the names were changed that it says to change.</summary>
public sealed class NginxProxy : IAsyncDisposable
{
    readonly string _folder = Directory.CreateTempSubdirectory("earhelp-nginx-").FullName;
    Process? _process;

    public Uri Address { get; private set; } = null!;

    string Certificate => Path.Combine(_folder, "certificate.pem");

    string Key => Path.Combine(_folder, "key.pem");

    public async Task StartAsync(int port, params Uri[] nodes)
    {
        Address = new Uri(string.Create(CultureInfo.InvariantCulture, $"https://127.0.0.1:{port}"));
        await MakeCertificateAsync(Certificate, Key);
        await WriteSiteAsync(nodes);
        var own = string.Join('\n', ((string[])["client_body", "proxy", "fastcgi", "uwsgi", "scgi"]).Select(n => $"{n}_temp_path {_folder}/{n};"));
        var user = Environment.IsPrivilegedProcess ? "user root;" : "";
        await File.WriteAllTextAsync(
            Path.Combine(_folder, "nginx.conf"),
            $"{user} daemon off; pid {_folder}/pid; error_log {_folder}/error.log; events {{ worker_connections 1024; }}\nhttp {{\n{own}\ninclude {_folder}/site.conf;\n}}\n");
        _process = Process.Start("nginx", ["-e", Path.Combine(_folder, "error.log"), "-p", _folder, "-c", Path.Combine(_folder, "nginx.conf")]);
        await AnswersAsync();
    }

    /// <summary>Other nodes stand behind it from now on; what is under way is finished as it began.</summary>
    public async Task ChangeAsync(params Uri[] nodes)
    {
        await WriteSiteAsync(nodes);
        using var reload = Process.Start("kill", ["-HUP", _process!.Id.ToString(CultureInfo.InvariantCulture)]);
        await reload.WaitForExitAsync();
    }

    /// <summary>A browser that takes the proxy's own certificate.</summary>
    public Patient NewPatient() => new(Address);

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
        {
            using (var kill = Process.Start("kill", ["-TERM", _process.Id.ToString(CultureInfo.InvariantCulture)]))
                await kill.WaitForExitAsync();
            await _process.WaitForExitAsync();
            _process.Dispose();
        }

        Directory.Delete(_folder, recursive: true);
    }

    async Task WriteSiteAsync(Uri[] nodes)
    {
        var lines = (await File.ReadAllLinesAsync(Path.Combine(Repository.Root, "deploy", "two-nodes", "nginx.conf"))).ToList();
        var one = lines.Single(l => l.Contains("10.0.0.11:5080", StringComparison.Ordinal));
        var other = lines.Single(l => l.Contains("10.0.0.12:5080", StringComparison.Ordinal));
        lines[lines.IndexOf(one)] = string.Join('\n', nodes.Select(n => one.Replace("10.0.0.11:5080", n.Authority, StringComparison.Ordinal)));
        lines.Remove(other);
        var site = string.Join('\n', lines)
            .Replace("listen 443 ssl", $"listen {Address.Authority} ssl", StringComparison.Ordinal)
            .Replace("/etc/ssl/certs/ear.clinic.example.pem", Certificate, StringComparison.Ordinal)
            .Replace("/etc/ssl/private/ear.clinic.example.key", Key, StringComparison.Ordinal)
            .Replace("/opt/earhelp/content", Path.Combine(Repository.Root, "content"), StringComparison.Ordinal);
        await File.WriteAllTextAsync(Path.Combine(_folder, "site.conf"), site);
    }

    static async Task MakeCertificateAsync(string certificate, string key)
    {
        using var rsa = RSA.Create(2048);
        var request = new CertificateRequest("CN=127.0.0.1", rsa, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        using var made = request.CreateSelfSigned(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(200));
        await File.WriteAllTextAsync(certificate, made.ExportCertificatePem());
        await File.WriteAllTextAsync(key, rsa.ExportPkcs8PrivateKeyPem());
    }

    async Task AnswersAsync()
    {
        using var patient = NewPatient();
        for (var tries = 0; ; tries++)
        {
            try
            {
                await patient.ReadAsync("/");
                return;
            }
            catch (HttpRequestException) when (tries < 200 && _process is { HasExited: false })
            {
                await Task.Delay(50);
            }
        }
    }
}
