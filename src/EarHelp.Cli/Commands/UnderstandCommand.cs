using System.CommandLine;
using System.Text.Json;
using EarHelp.Cli.Reading;
using EarHelp.Cli.Teaching;
using EarHelp.Understanding.Messages;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp understand</c>: messages in, what they say out, one JSON object a line.</summary>
public static class UnderstandCommand
{
    const string Lesson = """
        In, one object a line:
          {"id": "m1", "text": "left ear sore since monday, not dizzy", "at": "2026-11-20T09:30"}
        at is a local time at the clinic; without it: now.

        Out, one object a line:
          id, facts and denied ({fact, value, certainty, words, start, length}; start and length count characters of the text),
          topic ({id, score} of the answer that is asked for, or null), signpost (an emergency that is said to be there, or null)
        certainty is "said", "maybe", "denied", "past", "supposed", "of another" or "mentioned". What is one of the last four stands
        among the facts too, since a danger sign that is mentioned in any way is asked about.

        With --explain, the text comes back with what was found in it, and the words that changed what stands around them.

        Try:
          echo '{"id":"m1","text":"no pain but it is leaking"}' | earhelp understand
          echo '{"id":"m1","text":"no pain but it is leaking"}' | earhelp understand --explain
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var language = SharedOptions.Language();
        var explain = new Option<bool>("--explain") { Description = "Write the text with what was found in it." };
        var command = new TaughtCommand("understand", "Read messages: JSON lines on stdin, what they say on stdout.", Lesson) { root, language, explain };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            var book = PhraseBook.Build(opened.Edition.Dialog, opened.WordingOf(parsed.GetValue(language)!));
            var writer = new ReadMessageWriter(book, opened.WordingOf(parsed.GetValue(language)!));
            return await RunAsync(new MessageLineReader(opened.Edition.Clinic.Zone, clock), writer, parsed.GetValue(explain), terminal, cancellation).ConfigureAwait(false);
        });
        return command;
    }

    static async Task<int> RunAsync(MessageLineReader reader, ReadMessageWriter writer, bool explains, Terminal terminal, CancellationToken cancellation)
    {
        var result = ExitCode.Fine;
        for (var number = 1; await terminal.In.ReadLineAsync(cancellation).ConfigureAwait(false) is { } written; number++)
        {
            if (string.IsNullOrWhiteSpace(written))
                continue;
            try
            {
                var message = reader.Read(written);
                await terminal.Out.WriteLineAsync(explains ? writer.Explain(message) : writer.Json(message)).ConfigureAwait(false);
            }
            catch (Exception fault) when (fault is JsonException or FormatException)
            {
                result = ExitCode.FaultsFound;
                await terminal.Error.WriteLineAsync($"line {number}: {fault.Message} Write an object with \"id\" and \"text\", and \"at\" such as \"2026-11-20T09:30\".").ConfigureAwait(false);
            }
        }

        return result;
    }
}
