using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Benchmarks.Figures;

namespace Benchmarks.Serving;

/// <summary>A program that serves, in a process of its own with a data folder of its own.</summary>
sealed class ServerProcess : IDisposable
{
    static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    readonly Process _process;
    readonly StringBuilder _printed;
    readonly string? _ownData;

    /// <param name="ownData">A data folder that ends with the process, or null.</param>
    ServerProcess(Process process, StringBuilder printed, string? ownData, Uri address, TimeSpan started)
    {
        _process = process;
        _printed = printed;
        _ownData = ownData;
        Address = address;
        Started = started;
    }

    public Uri Address { get; }

    /// <summary>From the start of the process to the first page that came back.</summary>
    public TimeSpan Started { get; }

    /// <summary>Resident memory. Unit: megabytes.</summary>
    public double MegabytesInUse
    {
        get
        {
            _process.Refresh();
            return _process.WorkingSet64 / 1_000_000.0;
        }
    }

    /// <summary>Everything it has said.</summary>
    public string Printed
    {
        get
        {
            lock (_printed)
                return _printed.ToString();
        }
    }

    /// <summary>Processor time until then, of both cores: on a machine that others use it says more than the clock.</summary>
    public TimeSpan ProcessorTime { get; private init; }

    public static Task<ServerProcess> EarHelpAsync(params IEnumerable<string> more) => EarHelpInAsync(AppContext.BaseDirectory, more);

    /// <param name="folder">Where the program lies.</param>
    public static Task<ServerProcess> EarHelpInAsync(string folder, params IEnumerable<string> more) =>
        StartAsync((data, address) => EarHelp(folder, data, address, more));

    /// <param name="data">A data folder that is there already and stays.</param>
    public static Task<ServerProcess> EarHelpOnAsync(string data) =>
        StartAsync((folder, address) => EarHelp(AppContext.BaseDirectory, folder, address, []), data);

    /// <summary>As it is deployed, on a data folder that is there already and stays.</summary>
    public static Task<ServerProcess> PublishedOnAsync(string program, string data) =>
        StartAsync((_, address) => ["serve", .. Settings(data, address)], data, program);

    public static Task<ServerProcess> EchoBotAsync(string keysFile) =>
        StartAsync((_, address) => [Itself, EchoBot.Name, address, keysFile]);

    public static Task<ServerProcess> BareAsync(string bytesFile) =>
        StartAsync((_, address) => [Itself, BareServer.Name, address, bytesFile]);

    public void Dispose()
    {
        _process.Kill(entireProcessTree: true);
        _process.WaitForExit();
        _process.Dispose();
        if (_ownData is not null)
            Directory.Delete(_ownData, recursive: true);
    }

    static string Itself => Path.Combine(AppContext.BaseDirectory, "Benchmarks.dll");

    static string[] EarHelp(string folder, string data, string address, IEnumerable<string> more) =>
        [Path.Combine(folder, "EarHelp.Web.dll"), .. Settings(data, address), "--requests-a-minute", "100000000", "--requests-a-second", "100000000", .. more];

    static string[] Settings(string data, string address) => ["--urls", address, "--data", data, "--root", Places.Root];

    static async Task<ServerProcess> StartAsync(Func<string, string, string[]> arguments, string? kept = null, string program = "dotnet")
    {
        var data = kept ?? Directory.CreateTempSubdirectory("earhelp-load-").FullName;
        var address = new Uri($"http://127.0.0.1:{FreePort()}");
        var from = Stopwatch.GetTimestamp();
        var process = Process.Start(new ProcessStartInfo(program, arguments(data, address.ToString().TrimEnd('/'))) { RedirectStandardOutput = true })
            ?? throw new InvalidOperationException($"{program} did not start");
        var printed = new StringBuilder();
        process.OutputDataReceived += (_, line) =>
        {
            lock (printed)
                printed.AppendLine(line.Data);
        };
        process.BeginOutputReadLine();
        using var client = new HttpClient();
        using var again = new PeriodicTimer(TimeSpan.FromMilliseconds(2));
        while (!await AnswersAsync(client, address))
        {
            if (process.HasExited || Stopwatch.GetElapsedTime(from) > Patience)
            {
                process.Kill(entireProcessTree: true);
                throw new InvalidOperationException("The server did not serve its first page.");
            }

            await again.WaitForNextTickAsync();
        }

        var started = Stopwatch.GetElapsedTime(from);
        process.Refresh();
        return new ServerProcess(process, printed, kept is null ? data : null, address, started) { ProcessorTime = process.TotalProcessorTime };
    }

    static async Task<bool> AnswersAsync(HttpClient client, Uri page)
    {
        try
        {
            using var response = await client.GetAsync(page);
            return response.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
