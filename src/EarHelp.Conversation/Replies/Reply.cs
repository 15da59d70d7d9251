using System.Collections.Immutable;
using System.Text.Json.Serialization;
using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Replies;

/// <summary>One typed reply. It names texts and never holds them: the edition has the words.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(Say), "say")]
[JsonDerivedType(typeof(Alarm), "alarm")]
[JsonDerivedType(typeof(Ask), "ask")]
[JsonDerivedType(typeof(Confirm), "confirm")]
[JsonDerivedType(typeof(Outcome), "outcome")]
[JsonDerivedType(typeof(Answered), "answered")]
[JsonDerivedType(typeof(NotKnown), "not-known")]
public abstract record Reply
{
    Reply()
    {
    }

    /// <summary>A page text or a short interface text, e.g. the greeting or "we dropped these answers".</summary>
    /// <param name="Text">Key of a page (<see cref="Triage.Editions.Wording.Pages"/>) or of an interface text.</param>
    /// <param name="Blanks">What fills its blanks, by name; a name that comes several times is a list.</param>
    public sealed record Say(string Text, ImmutableArray<Blank> Blanks) : Reply;

    /// <summary>An emergency text shown at once: a signpost, or the text of the level that a sign would lead to.</summary>
    /// <param name="Signpost">Id of a signpost, or null.</param>
    /// <param name="Level">Id of a level whose outcome text is shown, or null.</param>
    public sealed record Alarm(string? Signpost, string? Level) : Reply;

    public sealed record Ask(Question Question) : Reply;

    /// <summary>What was understood from free text, to be confirmed: "yes" sends the values back as chosen answers, "no" sends none.</summary>
    public sealed record Confirm(QuestionName Name, ImmutableArray<ReadBack> Understood) : Reply
    {
        /// <summary>What was written about as well, and is asked about directly.</summary>
        [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
        public ImmutableArray<FactNamed> AskedNext { get; init; }
    }

    public sealed record Outcome(OutcomeTold Told) : Reply;

    public sealed record Answered(PageTold Told) : Reply;

    /// <summary>A question for which no answer was found.</summary>
    /// <param name="Nearest">The answers that come nearest, best first.</param>
    public sealed record NotKnown(ImmutableArray<string> Nearest) : Reply;
}

/// <summary>What fills a blank.</summary>
/// <param name="Value">
/// A figure as it is; else what stands before the colon says what it names: <c>fact:ID</c>, <c>fact:ID@left</c>, <c>screen:ID</c>,
/// <c>answer:ID@left=VALUE</c>, <c>date:2026-11-20</c>, <c>words:KEY</c> a short text,
/// <c>text:</c> the person's own words.
/// </param>
public sealed record Blank(string Name, string Value);

/// <param name="Ear">Null: of the person, or not known.</param>
public readonly record struct FactNamed(string Fact, Triage.Answers.Ear? Ear);

/// <param name="Value">The value as in <see cref="ChosenAnswer.Value"/>.</param>
/// <param name="Words">The person's own words that it rests on.</param>
public sealed record ReadBack(string Fact, Triage.Answers.Ear? Ear, string Value, string Words);
