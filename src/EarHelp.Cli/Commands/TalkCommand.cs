using System.CommandLine;
using System.Security.Cryptography;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Talking;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Taking;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp talk</c>: the conversation, in the terminal.</summary>
public static class TalkCommand
{
    const string Lesson = """
        Answer with the mark before an option, with several marks (1 3), or in your own words.
        Lines for the program:
          :change SCREEN [left|right]   ask an earlier question again
          :changed                      after an outcome: something has changed
          :start-over   :quit
        Nothing is kept, unless --data names a folder: then the conversation's ID is printed for "replay" and "erase".

        Try:
          earhelp talk
          printf 'me\n' | earhelp talk --data FOLDER
        """;

    public static Command Make(Terminal terminal, TimeProvider clock)
    {
        var root = SharedOptions.Root();
        var data = SharedOptions.Data();
        data.Description = "Keep the conversation in this folder (by default nothing is kept).";
        var language = SharedOptions.Language();
        var command = new TaughtCommand("talk", "Hold a conversation here in the terminal.", Lesson) { root, data, language };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (OpenedEdition.Open(parsed.GetValue(root), terminal) is not { } opened)
                return ExitCode.FaultsFound;
            opened.WordingOf(parsed.GetValue(language)!);
            var conversation = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
            await using var store = parsed.GetValue(data) is { } folder ? OpenedStore.Open(folder, terminal) : null;
            if (store is not null)
            {
                await store.KeepAsync(opened, cancellation).ConfigureAwait(false);
                await terminal.Error.WriteLineAsync($"conversation {conversation}").ConfigureAwait(false);
            }

            var shelf = new EditionShelf(opened.Served, store?.Editions);
            var turns = new TurnTaking(store?.Turns ?? new TurnsInMemory(), shelf, clock);
            var talk = new TerminalTalk(turns, conversation, parsed.GetValue(language)!, terminal, clock);
            return await talk.HoldAsync(cancellation).ConfigureAwait(false) ? ExitCode.Fine : ExitCode.FaultsFound;
        });
        return command;
    }
}
