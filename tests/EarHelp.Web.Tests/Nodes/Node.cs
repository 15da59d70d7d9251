using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using System.Text;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>The service as a process of its own on a database that others use too.</summary>
public sealed class Node(string database, int port) : IAsyncDisposable
{
    static readonly string[] Limits = ["--requests-a-minute", "1000000", "--requests-a-second", "1000000"];

    readonly string _data = Directory.CreateTempSubdirectory("earhelp-node-").FullName;
    readonly StringBuilder _printed = new();
    Process? _process;

    public Uri Address { get; } = new(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}"));

    /// <summary>Everything the process has printed.</summary>
    public string Printed
    {
        get
        {
            lock (_printed)
                return _printed.ToString();
        }
    }

    /// <summary>Starts it, and waits until it serves.</summary>
    public async Task StartAsync()
    {
        var start = new ProcessStartInfo("dotnet",
        [
            Path.Combine(AppContext.BaseDirectory, "EarHelp.Web.dll"), "--urls", Address.AbsoluteUri, "--data", _data, "--root", Repository.Root, "--store", database,
            "--proxies", "127.0.0.1", .. Limits,
        ])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var serves = new TaskCompletionSource();
        _process = Process.Start(start)!;
        _process.EnableRaisingEvents = true;
        _process.Exited += (_, _) => serves.TrySetException(new InvalidOperationException("The node ended: " + Printed));
        _process.OutputDataReceived += (_, line) => Take(line.Data);
        _process.ErrorDataReceived += (_, line) => Take(line.Data);
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
        await serves.Task.WaitAsync(TimeSpan.FromMinutes(2));
        using var client = new HttpClient { BaseAddress = Address };
        while (!(await client.GetAsync(new Uri("/health/ready", UriKind.Relative))).IsSuccessStatusCode)
            await Task.Delay(50);

        void Take(string? line)
        {
            lock (_printed)
                _printed.AppendLine(line);
            if (line?.StartsWith("EarHelp serves patients at", StringComparison.Ordinal) == true)
                serves.TrySetResult();
        }
    }

    /// <summary>As a loss of the machine: nothing is tidied up.</summary>
    public async Task KillAsync()
    {
        await SignalAsync("KILL");
        await _process!.WaitForExitAsync();
        _process.Dispose();
        _process = null;
    }

    public Task PauseAsync() => SignalAsync("STOP");

    public Task ResumeAsync() => SignalAsync("CONT");

    /// <summary>What the socket in its data folder answers.</summary>
    public async Task<string> AskAsync(HttpMethod method, string path)
    {
        using var client = new HttpClient(new SocketsHttpHandler
        {
            ConnectCallback = async (_, cancellation) =>
            {
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                await socket.ConnectAsync(new UnixDomainSocketEndPoint(ControlSocket.PathIn(_data)), cancellation);
                return new NetworkStream(socket, ownsSocket: true);
            },
        });
        using var request = new HttpRequestMessage(method, new Uri("http://socket/" + path));
        using var answer = await client.SendAsync(request);
        return await answer.Content.ReadAsStringAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
            await KillAsync();
        Directory.Delete(_data, recursive: true);
    }

    async Task SignalAsync(string signal)
    {
        using var kill = Process.Start("kill", ["-" + signal, _process!.Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
    }
}
