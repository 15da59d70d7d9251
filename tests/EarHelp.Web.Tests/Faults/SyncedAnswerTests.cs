using System.Globalization;
using System.Text.RegularExpressions;
using EarHelp.Servers.Host;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Visits;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>The whole service, watched by the system's own trace while a person talks with it over a socket.</summary>
public sealed partial class SyncedAnswerTests(ITestOutputHelper output)
{
    const string Talking = "read,recvfrom,recvmsg,write,sendto,sendmsg";

    /// <remarks>Linux opens a file with O_SYNC for write-through: a write to it returns once it is on the device (open(2)).</remarks>
    [Fact]
    public async Task No_answer_to_a_form_leaves_before_the_write_of_its_turn_is_on_the_device()
    {
        var trace = NewTrace();
        await using var node = new Node(null, Ways.FreePort()) { Watch = [.. Watch(Talking + ",openat,pwrite64,pwritev", trace)] };

        var pages = await TalkAsync(node);

        var lines = await TakeAsync(trace);
        Assert.Contains(lines, l => l.Contains("openat", StringComparison.Ordinal) && l.Contains("earhelp-log.db", StringComparison.Ordinal) && SyncedOpening().IsMatch(l));
        AssertSynced(pages, Forms(lines), Finished(lines, "pwrite64", "earhelp-log.db>"));
    }

    /// <remarks>
    /// PostgreSQL tells of a commit once its log is flushed with wal_sync_method, on Linux fdatasync(2), with fsync and synchronous_commit on
    /// (PostgreSQL's documentation, Write Ahead Log).
    /// </remarks>
    [Fact]
    public async Task On_PostgreSQL_no_answer_to_a_form_leaves_before_the_log_of_the_database_is_on_the_device()
    {
        var (trace, traceOfDatabase) = (NewTrace(), NewTrace());
        await using var server = await PostgresServer.StartAsync(Watch("fdatasync", traceOfDatabase));
        await using var node = new Node(await PostgresServer.NewSchemaAsync(server.Address), Ways.FreePort()) { Watch = [.. Watch(Talking, trace)] };

        var pages = await TalkAsync(node);

        AssertSynced(pages, Forms(await TakeAsync(trace)), Finished(await TakeAsync(traceOfDatabase), "fdatasync", "/pg_wal/"));
    }

    /// <summary>A file that the watched program's own user can make.</summary>
    static string NewTrace() => Path.Combine(Path.GetTempPath(), "earhelp-trace-" + Guid.NewGuid().ToString("N"));

    static string[] Watch(string calls, string trace) => ["strace", "-D", "-f", "-y", "-ttt", "-T", "-s", "48", "-e", "trace=" + calls, "-o", trace];

    /// <returns>How many pages came back.</returns>
    static async Task<int> TalkAsync(Node node)
    {
        await node.StartAsync();
        using var patient = new Patient(node.Address);
        var pages = await patient.WalkAsync(await patient.BeginAsync(), Asking.SlowlyDuller);
        await node.StopAsync();
        return pages.Count;
    }

    static async Task<string[]> TakeAsync(string trace)
    {
        var lines = await File.ReadAllLinesAsync(trace);
        File.Delete(trace);
        return lines;
    }

    /// <summary>One form after the other: from the form that was read to the first byte of its answer.</summary>
    static List<(double Read, double Answered)> Forms(string[] lines)
    {
        var forms = new List<(double, double)>();
        double? read = null;
        foreach (var line in lines)
        {
            if (line.Contains("\"POST /answer", StringComparison.Ordinal))
            {
                read = At(line);
            }
            else if (read is { } from && line.Contains("\"HTTP/1.1 ", StringComparison.Ordinal))
            {
                forms.Add((from, At(line)));
                read = null;
            }
        }

        return forms;
    }

    /// <summary>When calls on a file had come back; a call that others interrupt stands on two lines of its thread.</summary>
    static List<double> Finished(string[] lines, string call, string file)
    {
        var finished = new List<double>();
        var begun = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in lines)
        {
            var thread = line[..line.IndexOf(' ', StringComparison.Ordinal)];
            var isOnFile = line.Contains($" {call}(", StringComparison.Ordinal) && line.Contains(file, StringComparison.Ordinal);
            if (isOnFile && line.Contains("<unfinished", StringComparison.Ordinal))
                begun.Add(thread);
            else if (isOnFile)
                finished.Add(At(line) + Length(line));
            else if (line.Contains($"{call} resumed>", StringComparison.Ordinal) && begun.Remove(thread))
                finished.Add(At(line));
        }

        return finished;
    }

    /// <summary>When the call began, or went on. Unit: seconds.</summary>
    static double At(string line) => double.Parse(line.Split(' ', 3, StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture);

    /// <summary>How long the call took. Unit: seconds.</summary>
    static double Length(string line) => double.Parse(line[(line.LastIndexOf('<') + 1)..^1], CultureInfo.InvariantCulture);

    void AssertSynced(int pages, List<(double Read, double Answered)> forms, List<double> syncs)
    {
        var synced = forms.Count(f => syncs.Any(s => s > f.Read && s < f.Answered));
        output.WriteLine($"{forms.Count} forms answered, {synced} of them after a synced write of the log.");
        Assert.Equal(pages, forms.Count);
        Assert.Equal(forms.Count, synced);
    }

    [GeneratedRegex("O_D?SYNC")]
    private static partial Regex SyncedOpening();
}
