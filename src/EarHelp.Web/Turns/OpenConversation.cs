using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Turns;

/// <summary>A conversation that a person's secret opens, as it stands.</summary>
/// <param name="Edition">The one that it began with.</param>
public sealed record OpenConversation(string Id, ServedEdition Edition, ConversationState State)
{
    public Words Words => Words.Of(Edition, State);

    /// <summary>The question of now; null while something waits to be confirmed, and after the outcome.</summary>
    public Question? Asked => State.Pending is { ReadBack.IsEmpty: true } pending ? pending.Question : null;

    /// <summary>What waits for an answer, as the reply that asks it; null after the outcome.</summary>
    public Reply? Open => State.Pending switch
    {
        null => null,
        { ReadBack.IsEmpty: true } asked => new Reply.Ask(asked.Question),
        var read => new Reply.Confirm(read.Question.Name, read.ReadBack) { AskedNext = read.AskedNext },
    };

    /// <summary>The outcome if nothing is open after it, or null.</summary>
    public OutcomeTold? Outcome => State.IsFinished ? State.Told : null;
}
