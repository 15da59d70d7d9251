using System.CommandLine;
using System.Text.Json;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Teaching;
using EarHelp.Clinic.Auditing;
using EarHelp.Conversation.Searching;
using EarHelp.Understanding.Messages;
using NodaTime;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp unanswered</c>: what people wrote and was not understood, for those who write the phrases.</summary>
public static class UnansweredCommand
{
    const string Lesson = """
        Only what people wrote who allowed clinicians to read it, and took that not back. It is read from the conversations themselves and
        kept nowhere else: what was erased is not there any more, and after "words kept days" of content/clinic.md it is not shown.
        What can be a name is left out and shown as "…": words with a capital inside a sentence, unknown words that begin one, what follows
        "my name is" and the like, figures of four digits or more, addresses. A name in small letters that nothing announces is NOT found
        out: read this as you would read a letter, and pass nothing on.
        If a service has the data folder, it is asked over the socket there.
        Exit code 0, whatever is found; 1 if a conversation could not be read.

        Try:
          earhelp unanswered --data FOLDER
          earhelp unanswered --json | jq -r '.messages[].words'
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var json = new Option<bool>("--json") { Description = "Write JSON for programs." };
        var (root, data) = (SharedOptions.Root(), SharedOptions.Data());
        var command = new TaughtCommand("unanswered", "List what was written and not understood.", Lesson) { json, root, data };
        command.SetAction(async (parsed, cancellation) =>
        {
            var folder = KeptFolder.Find(parsed.GetValue(data), parsed.GetValue(root), terminal);
            if (await FindAsync(folder, parsed.GetValue(root), terminal, clock, cancellation).ConfigureAwait(false) is not { } found)
                return ExitCode.FaultsFound;
            await WriteAsync(found, parsed.GetValue(json), terminal).ConfigureAwait(false);
            return found.Unreadable == 0 ? ExitCode.Fine : ExitCode.FaultsFound;
        });
        return command;
    }

    static async Task<Unanswered?> FindAsync(string folder, string? root, Terminal terminal, TimeProvider clock, CancellationToken cancellation)
    {
        using var service = RunningService.Find(folder);
        if (service is not null)
            return JsonSerializer.Deserialize<Unanswered>((await service.SendAsync(HttpMethod.Get, "control/unanswered", null, cancellation).ConfigureAwait(false)).Bytes, JsonSerializerOptions.Web);
        if (OpenedEdition.Open(root, terminal) is not { } opened)
            return null;
        var store = OpenedStore.Open(folder, terminal);
        await using (store.ConfigureAwait(false))
        {
            await store.AddToAuditAsync(clock, AuditDeed.ListedUnanswered, null, cancellation).ConfigureAwait(false);
            var since = Instant.FromDateTimeOffset(clock.GetUtcNow()) - Duration.FromDays(opened.Edition.Clinic.WordsKeptDays);
            var book = PhraseBook.Build(opened.Edition.Dialog, opened.WordingOf("en"));
            return await UnansweredSearch.FindAsync(store.Conversations, store.Turns, book, since, cancellation).ConfigureAwait(false);
        }
    }

    static async Task WriteAsync(Unanswered found, bool asJson, Terminal terminal)
    {
        if (asJson)
        {
            await terminal.Out.WriteLineAsync(JsonSerializer.Serialize(found, JsonSerializerOptions.Web)).ConfigureAwait(false);
            return;
        }

        foreach (var message in found.Messages)
            await terminal.Out.WriteLineAsync($"{message.Day}  {message.Screen}: {message.Words.ReplaceLineEndings(" ")}").ConfigureAwait(false);
        await terminal.Out.WriteLineAsync($"{found.Messages.Length} messages were not understood and may be read.").ConfigureAwait(false);
        if (found.Unreadable > 0)
            await terminal.Error.WriteLineAsync($"earhelp: {found.Unreadable} conversations cannot be read. Restore the last verified backup.").ConfigureAwait(false);
    }
}
