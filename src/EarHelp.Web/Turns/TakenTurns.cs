using System.Collections.Immutable;
using EarHelp.Triage.Texts;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Turns;

/// <summary>What became of the turns of one form.</summary>
public abstract record TakenTurns
{
    TakenTurns()
    {
    }

    /// <param name="Conversation">As it stands after them.</param>
    /// <param name="New">These turns with the replies that are kept of them.</param>
    public sealed record Kept(OpenConversation Conversation, ImmutableArray<TurnTold> New) : TakenTurns;

    /// <summary>A turn is not on the disk.</summary>
    /// <param name="Alarms">The emergency texts to which it led.</param>
    public sealed record NotSaved(ImmutableArray<Prose> Alarms) : TakenTurns;

    /// <summary>There is no such conversation any more.</summary>
    public sealed record Gone : TakenTurns;
}
