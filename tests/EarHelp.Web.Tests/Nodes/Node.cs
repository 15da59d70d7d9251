using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using EarHelp.Servers.Host;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Faults;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>The service as a process of its own: on a database that others use too, or with a store in its own data folder.</summary>
/// <param name="database">Null: the store is in the data folder.</param>
public sealed class Node(string? database, int port) : IAsyncDisposable
{
    const int MostStarts = 4, LastLetters = 4000;

    static readonly string[] Limits = ["--requests-a-minute", "100000000", "--requests-a-second", "100000000"];

    /// <summary>A process whose file may not become larger goes on with an error, as on a full disk, and is not ended by the signal.</summary>
    static readonly string[] Shell = ["-c", "trap '' XFSZ; exec \"$@\"", "sh"];

    readonly StringBuilder _printed = new();
    Process? _process;

    /// <summary>What watches over it from its first call of the system on.</summary>
    public ImmutableArray<string> Watch { get; init; } = [];

    /// <summary>The program that runs in the place of the service, with what it is told first.</summary>
    public ImmutableArray<string> Program { get; set; } = [Path.Combine(AppContext.BaseDirectory, "EarHelp.Web.dll")];

    /// <summary>The folder with the edition that it brings.</summary>
    public string Root { get; init; } = Repository.Root;

    /// <summary>More settings, as on a command line.</summary>
    public ImmutableArray<string> Settings { get; init; } = [];

    /// <summary>What it finds around it.</summary>
    public IEnumerable<KeyValuePair<string, string?>> Environment { get; init; } = [];

    public string Data { get; } = Directory.CreateTempSubdirectory("earhelp-node-").FullName;

    public Uri Address { get; } = new(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}"));

    public int ProcessId => _process!.Id;

    /// <summary>Everything the process has printed.</summary>
    public string Printed
    {
        get
        {
            lock (_printed)
                return _printed.ToString();
        }
    }

    /// <summary>Whether it runs, and what it printed last.</summary>
    public string Told => $"{(_process is { HasExited: true } ended ? $"It ended with code {ended.ExitCode}." : "It runs.")} {(Printed is { Length: > LastLetters } printed ? printed[^LastLetters..] : Printed)}";

    /// <summary>Starts it, and waits until it serves. One that cannot start, as its database does not answer in time, is started again, as by its unit.</summary>
    public async Task StartAsync()
    {
        for (var tries = 1; ; tries++)
        {
            try
            {
                await StartOnceAsync();
                return;
            }
            catch (InvalidOperationException) when (tries < MostStarts)
            {
                await EndedAsync();
            }
        }
    }

    /// <summary>What a page of it is answered with.</summary>
    public async Task<int> StatusAsync(string page)
    {
        using var client = new HttpClient { BaseAddress = Address };
        using var answer = await client.GetAsync(new Uri(page, UriKind.Relative));
        return (int)answer.StatusCode;
    }

    /// <summary>Waits until its clock, as its answers tell it (RFC 9110, Date), is the moved one.</summary>
    internal Task UntilClockAsync(MovedTime time) => Waiting.UntilAsync(
        async () =>
        {
            using var client = new HttpClient { BaseAddress = Address };
            using var answer = await client.GetAsync(new Uri("/health/live", UriKind.Relative));
            return answer.Headers.Date is { } told && (told - time.Now).Duration() < TimeSpan.FromMinutes(1);
        },
        () => $"Its clock was not moved by {time.Ahead}.");

    /// <summary>As a loss of the machine: nothing is tidied up.</summary>
    public async Task KillAsync()
    {
        await SignalAsync("KILL");
        await EndedAsync();
    }

    /// <summary>As an operator stops it: what is under way is finished.</summary>
    public async Task StopAsync()
    {
        await SignalAsync("TERM");
        await EndedAsync();
    }

    /// <summary>Waits until the process has ended by itself.</summary>
    /// <returns>With which code.</returns>
    public async Task<int> EndedAsync()
    {
        await _process!.WaitForExitAsync().WaitAsync(TimeSpan.FromMinutes(2));
        var code = _process.ExitCode;
        MovedTime.Forget(_process.Id);
        _process.Dispose();
        _process = null;
        return code;
    }

    public Task PauseAsync() => SignalAsync("STOP");

    public Task ResumeAsync() => SignalAsync("CONT");

    /// <summary>No file of it can take a byte more (setrlimit(2), RLIMIT_FSIZE), as on a full disk.</summary>
    public Task FillDiskAsync() => DiskLimit.FillAsync(ProcessId);

    /// <summary>What the socket in its data folder answers.</summary>
    public Task<string> AskAsync(HttpMethod method, string path) => AskAsync(method, path, null);

    public async Task<string> AskAsync(HttpMethod method, string path, HttpContent? body)
    {
        using var client = SocketClient.To(ControlSocket.PathIn(Data));
        using var request = new HttpRequestMessage(method, new Uri(path, UriKind.Relative)) { Content = body };
        try
        {
            using var answer = await client.SendAsync(request);
            return await answer.Content.ReadAsStringAsync();
        }
        catch (HttpRequestException failure)
        {
            throw new InvalidOperationException($"The node does not answer at its socket. {Told}", failure);
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is not null)
            await KillAsync();
        Directory.Delete(Data, recursive: true);
    }

    async Task StartOnceAsync()
    {
        string[] stored = database is null ? [] : ["--store", database];
        var start = new ProcessStartInfo(
            "/bin/sh", [.. Shell, .. Watch, "dotnet", .. Program, "--urls", Address.AbsoluteUri, "--data", Data, "--root", Root, "--proxies", "127.0.0.1", .. stored, .. Limits, .. Settings])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        foreach (var (name, value) in Environment)
            start.Environment[name] = value;
        var serves = new TaskCompletionSource();
        _process = Process.Start(start)!;
        _process.EnableRaisingEvents = true;
        _process.Exited += (_, _) => serves.TrySetException(new InvalidOperationException("The node ended: " + Printed));
        _process.OutputDataReceived += (_, line) => Take(line.Data);
        _process.ErrorDataReceived += (_, line) => Take(line.Data);
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
        await serves.Task.WaitAsync(TimeSpan.FromMinutes(2));
        while (await StatusAsync("/health/ready") != 200)
            await Task.Delay(50);

        void Take(string? line)
        {
            lock (_printed)
                _printed.AppendLine(line);
            if (line?.StartsWith("EarHelp serves patients at", StringComparison.Ordinal) == true)
                serves.TrySetResult();
        }
    }

    async Task SignalAsync(string signal)
    {
        using var kill = Process.Start("kill", ["-" + signal, _process!.Id.ToString(CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
    }
}
