using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Conversation.Taking;

/// <summary>The emergency texts that are shown even when nothing can be saved.</summary>
static class Emergencies
{
    /// <summary>What the replies would have shown: every alarm, and the text of the most urgent level if it was reached.</summary>
    public static ImmutableArray<Reply> In(ServedEdition edition, Stepped stepped)
    {
        var found = ImmutableArray.CreateBuilder<Reply>();
        foreach (var reply in stepped.Replies)
        {
            var emergency = reply switch
            {
                Reply.Alarm alarm => alarm,
                Reply.Outcome { Told.Rank: 0 } => new Reply.Alarm(null, edition.Dialog.Levels[0].Id),
                _ => null,
            };
            if (emergency is not null && !found.Contains(emergency))
                found.Add(emergency);
        }

        return found.ToImmutable();
    }

    /// <summary>What the message says by itself, when not even the conversation can be read.</summary>
    public static ImmutableArray<Reply> InTurnAlone(ServedEdition edition, Turn turn, Instant now)
    {
        switch (turn.Content)
        {
            case TurnContent.Typed:
                return In(edition, Conversing.Step(edition, null, turn with { Answers = null }, now));
            case TurnContent.Chosen chosen:
                return In(edition, Conversing.StepAsIfAsked(edition, chosen, turn.Answers?.Ear, now));
            default:
                return [];
        }
    }
}
