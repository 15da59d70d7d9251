using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace EarHelp.Servers.Host;

/// <summary>The SMTP server in a process of its own.</summary>
public sealed class SmtpProcess : IAsyncDisposable
{
    readonly string _folder;
    readonly Process _server;

    SmtpProcess(string folder, Process server, int port, string certificate)
    {
        (_folder, _server, Port, Certificate) = (folder, server, port, certificate);
    }

    public int Port { get; }

    /// <summary>Path of its own certificate.</summary>
    public string Certificate { get; }

    public static async Task<SmtpProcess> StartAsync()
    {
        var folder = Directory.CreateTempSubdirectory("earhelp-smtp-").FullName;
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var port = ((IPEndPoint)listener.LocalEndpoint).Port;
        listener.Stop();
        var server = Launch(folder, port);
        var said = await server.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("The SMTP server did not start.");
        return new SmtpProcess(folder, server, port, said[(said.IndexOf(' ', StringComparison.Ordinal) + 1)..]);
    }

    /// <summary>What it took, in order: the name says whether the way was secure.</summary>
    public IReadOnlyList<(string Name, string Text)> Taken() =>
        [.. Directory.EnumerateFiles(_folder, "*.eml").Order(StringComparer.Ordinal).Select(f => (Path.GetFileName(f), File.ReadAllText(f)))];

    public async Task StopAsync()
    {
        _server.StandardInput.Close();
        await _server.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (!_server.HasExited)
            await StopAsync();
        _server.Dispose();
        Directory.Delete(_folder, true);
    }

    static Process Launch(string folder, int port) => Process.Start(
        new ProcessStartInfo("dotnet", [typeof(SmtpProcess).Assembly.Location, "smtp", folder, port.ToString(CultureInfo.InvariantCulture)]) { RedirectStandardInput = true, RedirectStandardOutput = true })!;
}
