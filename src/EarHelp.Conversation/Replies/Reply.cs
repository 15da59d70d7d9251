using System.Collections.Immutable;
using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Replies;

/// <summary>One typed reply. It names texts and never holds them: the edition has the words.</summary>
public abstract record Reply
{
    Reply()
    {
    }

    /// <summary>A page text or a short interface text, e.g. the greeting or "we dropped these answers".</summary>
    /// <param name="Text">Key of a page (<see cref="Triage.Editions.Wording.Pages"/>) or of an interface text.</param>
    /// <param name="Blanks">What fills its blanks, by name.</param>
    public sealed record Say(string Text, ImmutableArray<Blank> Blanks) : Reply;

    /// <summary>An emergency text shown at once: a signpost, or the text of the level that a sign would lead to.</summary>
    /// <param name="Signpost">Id of a signpost, or null.</param>
    /// <param name="Level">Id of a level whose outcome text is shown, or null.</param>
    public sealed record Alarm(string? Signpost, string? Level) : Reply;

    public sealed record Ask(Question Question) : Reply;

    /// <summary>What was understood from free text, to be confirmed.</summary>
    public sealed record Confirm(QuestionName Name, ImmutableArray<ReadBack> Understood) : Reply;

    public sealed record Outcome(OutcomeTold Told) : Reply;
}

public sealed record Blank(string Name, string Value);

/// <param name="Value">The value as in <see cref="ChosenAnswer.Value"/>.</param>
/// <param name="Words">The person's own words that it rests on.</param>
public sealed record ReadBack(string Fact, Triage.Answers.Ear? Ear, string Value, string Words);
