using System.Globalization;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Cli.Talking;

/// <summary>A conversation line by line, through the same turns and the same letters as the pages.</summary>
public sealed class TerminalTalk(TurnTaking turns, string conversation, string language, Terminal terminal, TimeProvider clock)
{
    int _turn;

    /// <summary>Until the lines end or the person leaves.</summary>
    /// <returns>False if a turn could not be saved.</returns>
    public async Task<bool> HoldAsync(CancellationToken cancellation)
    {
        QuestionName? asked = null;
        TurnContent? content = new TurnContent.Begin(language);
        while (content is not null)
        {
            var turn = new Turn(NextId(), content is TurnContent.Typed ? asked : null, content);
            if (await turns.TakeAsync(conversation, turn, [], cancellation).ConfigureAwait(false) is not TurnTaken.Kept kept)
            {
                await terminal.Error.WriteLineAsync("earhelp: this turn could not be saved, so it is not answered.").ConfigureAwait(false);
                return false;
            }

            await TellAsync(kept).ConfigureAwait(false);
            asked = kept.State.Pending?.Question.Name;
            content = await NextAsync(cancellation).ConfigureAwait(false);
        }

        return true;
    }

    string NextId() => (++_turn).ToString(CultureInfo.InvariantCulture);

    async Task TellAsync(TurnTaken.Kept kept)
    {
        var words = kept.Edition.WriterOf(kept.State);
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        foreach (var reply in kept.Replies)
            await terminal.Out.WriteLineAsync(PlainText.Of(words.Write(reply, now), words)).ConfigureAwait(false);
    }

    /// <summary>What the next line says; null: the person leaves. Lines that begin with a colon are for the program.</summary>
    async Task<TurnContent?> NextAsync(CancellationToken cancellation)
    {
        while (true)
        {
            await terminal.Error.WriteAsync("> ").ConfigureAwait(false);
            var line = await terminal.In.ReadLineAsync(cancellation).ConfigureAwait(false);
            switch (line?.Trim().Split(' ', 2))
            {
                case null or [":quit"]:
                    return null;
                case [":start-over"]:
                    return new TurnContent.StartOver();
                case [":share"]:
                    return new TurnContent.ShareWords(IsAllowed: true);
                case [":changed"]:
                    return new TurnContent.SomethingChanged();
                case [":change", var screen]:
                    return ChangeWords.Read(screen);
                case [{ Length: > 0 } first, ..] when first[0] == ':':
                    await terminal.Error.WriteLineAsync(":change SCREEN [left|right], :changed, :share, :start-over, :quit").ConfigureAwait(false);
                    break;
                case [{ Length: > 0 }, ..]:
                    return new TurnContent.Typed(line.Trim());
                default:
                    break;
            }
        }
    }
}
