using System.Collections.Immutable;
using System.CommandLine;
using System.Text;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Cli.Visiting;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Records;
using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp requests</c>: who waits for a visit, for whoever answers at the clinic.</summary>
public static class RequestsCommand
{
    const string Lesson = """
        The request with the nearest limit stands first, those without a limit last. Each says how soon someone should look in the ear, how
        long is left, by when the patient goes elsewhere if nobody answers, the time of a visit that was taken, how to reach the person, and what
        helps at the visit.
        The conversation's identifier leads to everything that was asked and told: earhelp replay CONVERSATION.
        This prints personal details. Call it where only staff can read the screen, and do not keep what it prints.
        If a service has the data folder, it is asked over the socket there.
        Exit code 0, whoever waits; 2 if there is no such folder.

        Try:
          earhelp requests --data FOLDER
          earhelp requests --json | jq -r '.[0].request.conversation'
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("requests", "List who asks for a visit, the nearest limit first.", Lesson) { json, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var waiting = WaitingList.Sort(await FindAsync(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal), terminal, clock, cancellation).ConfigureAwait(false));
            var text = parsed.GetValue(json)
                ? Encoding.UTF8.GetString(RequestJson.Write(waiting)) + "\n"
                : WaitingList.Write(waiting, Instant.FromDateTimeOffset(clock.GetUtcNow()));
            await terminal.Out.WriteAsync(text).ConfigureAwait(false);
            return ExitCode.Fine;
        });
        return command;
    }

    static async Task<ImmutableArray<KeptRequest>> FindAsync(string folder, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        using var service = RunningService.Find(folder);
        if (service is not null)
            return RequestJson.ReadAll((await service.SendAsync(HttpMethod.Get, "control/requests", null, cancellation).ConfigureAwait(false)).Bytes);
        var store = OpenedStore.Open(folder, terminal);
        await using (store.ConfigureAwait(false))
        {
            await store.AddToAuditAsync(clock, AuditDeed.ListedRequests, null, cancellation).ConfigureAwait(false);
            return await WaitingRequests.FindAsync(store.Requests, store.Turns, cancellation).ConfigureAwait(false);
        }
    }
}
