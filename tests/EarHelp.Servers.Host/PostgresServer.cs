using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace EarHelp.Servers.Host;

/// <summary>A real PostgreSQL server of Debian's package on loopback, with a folder of its own, fsync on.</summary>
public sealed class PostgresServer : IAsyncDisposable
{
    /// <summary>Names a server that runs already, as an address with a database in it.</summary>
    public const string Variable = "EARHELP_TEST_POSTGRES";

    static readonly Lazy<Task<string>> Shared = new(FindOrStartAsync);

    readonly string _folder;
    readonly string _programs;
    readonly int _port;
    readonly string[] _watch;
    Process _server;

    PostgresServer(string folder, string programs, int port, string[] watch)
    {
        (_folder, _programs, _port, _watch) = (folder, programs, port, watch);
        _server = Launch();
    }

    /// <summary>How to reach its database.</summary>
    public string Address => string.Create(CultureInfo.InvariantCulture, $"Host=127.0.0.1;Port={_port};Database=postgres;Username=postgres");

    /// <summary>An empty schema on the one server that all tests of a process share, as an address.</summary>
    public static async Task<string> NewSchemaAsync() => await NewSchemaAsync(await Shared.Value);

    public static async Task<string> NewSchemaAsync(string address)
    {
        var schema = "test_" + Guid.NewGuid().ToString("N");
        await DoAsync(address, $"create schema {schema}");
        return $"{address};Search Path={schema}";
    }

    /// <param name="watch">A program and its arguments, under which the server runs.</param>
    public static async Task<PostgresServer> StartAsync(params string[] watch)
    {
        var programs = Directory.GetDirectories("/usr/lib/postgresql").Order(StringComparer.Ordinal).LastOrDefault() is { } newest
            ? Path.Combine(newest, "bin")
            : throw new InvalidOperationException("There is no PostgreSQL here: apt-get install postgresql");
        var folder = Directory.CreateTempSubdirectory("earhelp-postgres").FullName;
        if (Environment.IsPrivilegedProcess)
            await RunAsync(new ProcessStartInfo("chown", ["postgres", folder]));
        await RunAsync(Command(Path.Combine(programs, "initdb"), folder, "-D", Path.Combine(folder, "cluster"), "--auth=trust", "--username=postgres", "--encoding=UTF8", "--locale=C.UTF-8", "--no-sync"));
        var server = new PostgresServer(folder, programs, FreePort(), watch);
        await server.AnswersAsync();
        return server;
    }

    /// <summary>As a loss of the process: nothing is tidied up.</summary>
    public async Task KillAsync()
    {
        using (var server = Process.GetProcessById(await ProcessIdAsync()))
            server.Kill();
        await EndedAsync();
    }

    /// <summary>The disk of the server is full: it cannot write its log, and ends by itself.</summary>
    public async Task FillDiskAsync()
    {
        var id = await ProcessIdAsync();
        await DiskLimit.FillAsync(id, AsServer);
        var children = await File.ReadAllTextAsync(string.Create(CultureInfo.InvariantCulture, $"/proc/{id}/task/{id}/children"));
        foreach (var child in children.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            await DiskLimit.FillAsync(int.Parse(child, CultureInfo.InvariantCulture), AsServer);
        await EndedAsync();
    }

    public async Task StartAgainAsync()
    {
        _server = Launch();
        await AnswersAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (File.Exists(Path.Combine(_folder, "cluster", "postmaster.pid")))
            await RunAsync(Command(Path.Combine(_programs, "pg_ctl"), _folder, "stop", "-D", Path.Combine(_folder, "cluster"), "-m", "immediate", "--silent"));
        _server.Dispose();
        Directory.Delete(_folder, true);
    }

    /// <summary>Adds a record to the ledger of EarHelp as a node does it whose message to the others is lost.</summary>
    public static Task AddToLedgerAsync(string address, int number, ReadOnlyMemory<byte> body, string previousHash, string hash) =>
        DoAsync(address, string.Create(CultureInfo.InvariantCulture, $"insert into ledger values ({number}, '\\x{Convert.ToHexString(body.Span)}', '{previousHash}', '{hash}')"));

    public static async Task DoAsync(string address, string sql)
    {
        await using var source = NpgsqlDataSource.Create(address + ";Pooling=false");
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync();
    }

    ProcessStartInfo AsServer(string program, string[] arguments) => Command(program, _folder, arguments);

    /// <summary>The first line of this file is the process of the server itself, not of the program that changed the user.</summary>
    async Task<int> ProcessIdAsync() =>
        int.Parse((await File.ReadAllLinesAsync(Path.Combine(_folder, "cluster", "postmaster.pid")))[0], CultureInfo.InvariantCulture);

    async Task EndedAsync()
    {
        await _server.WaitForExitAsync();
        _server.Dispose();
    }

    static async Task<string> FindOrStartAsync()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } running)
            return running;
        var server = await StartAsync();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => server.DisposeAsync().AsTask().GetAwaiter().GetResult();
        return server.Address;
    }

    static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    Process Launch()
    {
        string[] command =
        [
            .. _watch,
            Path.Combine(_programs, "postgres"),
            "-D", Path.Combine(_folder, "cluster"),
            "-c", "listen_addresses=127.0.0.1",
            "-c", $"port={_port}",
            "-c", $"unix_socket_directories={_folder}",
            "-c", "max_connections=400",
            "-c", "logging_collector=off",
            "-c", "log_min_messages=panic",
        ];
        return Start(Command(command[0], _folder, command[1..]));
    }

    async Task AnswersAsync()
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                await DoAsync(Address, "select 1");
                return;
            }
            catch (NpgsqlException) when (tries < 200)
            {
                await Task.Delay(50);
            }
        }
    }

    static async Task RunAsync(ProcessStartInfo command)
    {
        using var process = Start(command);
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{command.FileName} ended with code {process.ExitCode}.");
    }

    static Process Start(ProcessStartInfo command)
    {
        command.RedirectStandardOutput = true;
        command.RedirectStandardInput = true;
        var process = Process.Start(command)!;
        process.StandardInput.Close();
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        return process;
    }

    /// <summary>PostgreSQL refuses to run as root.</summary>
    static ProcessStartInfo Command(string program, string folder, params string[] arguments) => Environment.IsPrivilegedProcess
        ? new ProcessStartInfo("setpriv", ["--reuid=postgres", "--regid=postgres", "--clear-groups", program, .. arguments]) { WorkingDirectory = folder }
        : new ProcessStartInfo(program, arguments) { WorkingDirectory = folder };
}
