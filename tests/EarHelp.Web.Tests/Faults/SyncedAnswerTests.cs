using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Visits;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>The whole service, watched by the system's own trace while a person talks with it over a socket.</summary>
/// <remarks>Linux opens a file with O_SYNC for write-through: a write to it returns once it is on the device (open(2)).</remarks>
public sealed partial class SyncedAnswerTests(ITestOutputHelper output)
{
    [Fact]
    public async Task No_answer_to_a_form_leaves_before_the_write_of_its_turn_is_on_the_device()
    {
        var trace = Path.GetTempFileName();
        var calls = "trace=openat,read,recvfrom,recvmsg,write,pwrite64,pwritev,sendto,sendmsg";
        await using var node = new Node(null, Ways.FreePort()) { Watch = ["strace", "-D", "-f", "-y", "-s", "48", "-e", calls, "-o", trace] };
        await node.StartAsync();
        using var patient = new Patient(node.Address);
        var pages = await patient.WalkAsync(await patient.BeginAsync(), Asking.SlowlyDuller);
        await node.StopAsync();

        var lines = await File.ReadAllLinesAsync(trace);
        File.Delete(trace);
        var (forms, synced) = Answered(lines);
        output.WriteLine($"{forms} forms answered, {synced} of them after a synced write of the log.");
        Assert.Contains(lines, l => l.Contains("openat", StringComparison.Ordinal) && l.Contains("earhelp-log.db", StringComparison.Ordinal) && SyncedOpening().IsMatch(l));
        Assert.Equal(pages.Count, forms);
        Assert.Equal(forms, synced);
    }

    /// <summary>One form after the other: from a form that was read to the first byte of its answer, was a write of the log finished?</summary>
    static (int Forms, int Synced) Answered(string[] lines)
    {
        var (forms, synced) = (0, 0);
        var (isOpen, isSynced) = (false, false);
        var writing = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in lines)
        {
            var thread = line[..line.IndexOf(' ', StringComparison.Ordinal)];
            var isLog = line.Contains("earhelp-log.db>", StringComparison.Ordinal) && line.Contains(" pwrite", StringComparison.Ordinal);
            if (isLog && line.Contains("<unfinished", StringComparison.Ordinal))
                writing.Add(thread);
            else if (isLog || (line.Contains("pwrite64 resumed>", StringComparison.Ordinal) && writing.Remove(thread)))
                isSynced = true;
            else if (line.Contains("\"POST /answer", StringComparison.Ordinal))
                (isOpen, isSynced) = (true, false);
            else if (isOpen && line.Contains("\"HTTP/1.1 ", StringComparison.Ordinal))
                (isOpen, forms, synced) = (false, forms + 1, synced + (isSynced ? 1 : 0));
        }

        return (forms, synced);
    }

    [GeneratedRegex("O_D?SYNC")]
    private static partial Regex SyncedOpening();
}
