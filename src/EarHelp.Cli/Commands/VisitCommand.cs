using System.Collections.Immutable;
using System.CommandLine;
using System.Net.Http.Json;
using System.Text.Json;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Cli.Visiting;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp visit</c>: records what was done and found at a visit, and gives the patient's private link.</summary>
public static class VisitCommand
{
    const string Lesson = """
        What is recorded counts in every conversation that is opened by the link: the patient is not asked about it and cannot clear it.
        What may be recorded stands in dialogs/ (tables "finding"); --list prints it. Names are joined by commas.
        The link works once: whoever opens it first has the conversation. It is printed and kept nowhere. --again CONVERSATION makes a new one.
        A visit is recorded once. A clinician who is signed in corrects a mistake on the staff pages (Visits); nobody can from here.
        A service must have the data folder: it is asked over the socket there.
        Exit code 0; 1 if the visit cannot be recorded so (nothing is kept then); 2 if called in a wrong way.

        Try:
          earhelp visit --list
          earhelp visit --at 2026-11-26T10:30 --by "R. Adair" --left "suction, wax left on purpose" --person "dizzy in the chair"
        """;

    public static Command Make(Terminal terminal)
    {
        var at = new Option<string>("--at") { Description = "When the visit was, local time at the clinic: 2026-11-26T10:30." };
        var by = new Option<string>("--by") { Description = "Who saw the patient." };
        var left = new Option<string>("--left") { Description = "Findings of the left ear." };
        var right = new Option<string>("--right") { Description = "Findings of the right ear." };
        var person = new Option<string>("--person") { Description = "Findings about the person." };
        var asked = new Option<string>("--asked-in") { Description = "The conversation from which the visit was asked for; both are erased together." };
        var email = new Option<string>("--email") { Description = "Where the patient agreed to be asked how it is." };
        var again = new Option<string>("--again") { Description = "Make a new link for the visit of this conversation." };
        var list = new Option<bool>("--list") { Description = "Print what may be recorded." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("visit", "Record what was done and found at a visit.", Lesson) { at, by, left, right, person, asked, email, again, list, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            using var service = RunningService.Find(KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal))
                ?? throw new WrongUseException("no service has this data folder. Start one with earhelp serve.");
            if (parsed.GetValue(list))
                return await ListAsync(service, terminal, cancellation).ConfigureAwait(false);
            if (parsed.GetValue(again) is { } conversation)
                return await LinkAsync(service, conversation, terminal, cancellation).ConfigureAwait(false);
            if (parsed.GetValue(at) is not { } moment || parsed.GetValue(by) is not { } who)
                throw new WrongUseException("a visit needs --at and --by.");
            var findings = VisitFindings.Read(parsed.GetValue(left), parsed.GetValue(right), parsed.GetValue(person));
            return await RecordAsync(service, new { at = moment, by = who, findings, before = parsed.GetValue(asked), email = parsed.GetValue(email) ?? "" }, terminal, cancellation).ConfigureAwait(false);
        });
        return command;
    }

    static async Task<int> RecordAsync<T>(RunningService service, T visit, Terminal terminal, CancellationToken cancellation)
    {
        using var content = JsonContent.Create(visit);
        var (status, bytes) = await service.SendAsync(HttpMethod.Post, "control/visit", content, cancellation).ConfigureAwait(false);
        if (status == 200)
            return await TellAsync(bytes, terminal).ConfigureAwait(false);
        if (status == 400)
            throw new WrongUseException("the visit cannot be read. Write --at as 2026-11-26T10:30, and a name after --by.");
        using var answer = status == 422 ? JsonDocument.Parse(bytes) : null;
        await terminal.Error.WriteLineAsync($"earhelp: {VisitFindings.Explain(answer?.RootElement.GetProperty("fault").GetString())}").ConfigureAwait(false);
        return ExitCode.FaultsFound;
    }

    static async Task<int> LinkAsync(RunningService service, string conversation, Terminal terminal, CancellationToken cancellation)
    {
        var (status, bytes) = await service.SendAsync(HttpMethod.Post, $"control/visit/{Uri.EscapeDataString(conversation)}/link", null, cancellation).ConfigureAwait(false);
        if (status == 200)
            return await TellAsync(bytes, terminal).ConfigureAwait(false);
        await terminal.Error.WriteLineAsync($"earhelp: no visit was recorded in a conversation \"{conversation}\".").ConfigureAwait(false);
        return ExitCode.FaultsFound;
    }

    static async Task<int> TellAsync(byte[] answer, Terminal terminal)
    {
        using var told = JsonDocument.Parse(answer);
        await terminal.Out.WriteLineAsync($"conversation {told.RootElement.GetProperty("conversation").GetString()}").ConfigureAwait(false);
        await terminal.Out.WriteLineAsync($"link {told.RootElement.GetProperty("link").GetString()} (after the service's own address; it works once)").ConfigureAwait(false);
        return ExitCode.Fine;
    }

    static async Task<int> ListAsync(RunningService service, Terminal terminal, CancellationToken cancellation)
    {
        var (_, bytes) = await service.SendAsync(HttpMethod.Get, "control/findings", null, cancellation).ConfigureAwait(false);
        using var findings = JsonDocument.Parse(bytes);
        foreach (var finding in findings.RootElement.EnumerateArray())
        {
            await terminal.Out.WriteLineAsync(
                $"{finding.GetProperty("kind").GetString()}\t{finding.GetProperty("about").GetString()}\t{finding.GetProperty("name").GetString()}\t{finding.GetProperty("form").GetString()}").ConfigureAwait(false);
        }

        return ExitCode.Fine;
    }
}
