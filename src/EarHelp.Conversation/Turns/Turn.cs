using System.Collections.Immutable;
using System.Text.Json.Serialization;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Turns;

/// <summary>One message in.</summary>
/// <param name="Id">The sender's own identifier: the same id is the same turn, whatever it says.</param>
/// <param name="Answers">The question it answers, or null for a message that answers none (typed freely, start over …).</param>
public sealed record Turn(string Id, QuestionName? Answers, TurnContent Content);

/// <summary>Which question, of which turn: an answer to an older one is kept and asked again, never applied elsewhere.</summary>
/// <param name="Ear">Null for a question about the person.</param>
/// <param name="Wording">1, 2 for the second wording after a "not sure", 3 in other words after a message that was not understood.</param>
/// <param name="AskedInTurn">Number of the turn whose reply asked it.</param>
public sealed record QuestionName(string Screen, Ear? Ear, int Wording, int AskedInTurn);

/// <summary>What a message says.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(Begin), "begin")]
[JsonDerivedType(typeof(Chosen), "chosen")]
[JsonDerivedType(typeof(Typed), "typed")]
[JsonDerivedType(typeof(Change), "change")]
[JsonDerivedType(typeof(SomethingChanged), "something-changed")]
[JsonDerivedType(typeof(StartOver), "start-over")]
[JsonDerivedType(typeof(AskForLink), "ask-for-link")]
[JsonDerivedType(typeof(CameBack), "came-back")]
[JsonDerivedType(typeof(AskAbout), "ask-about")]
[JsonDerivedType(typeof(GoOn), "go-on")]
[JsonDerivedType(typeof(ShareWords), "share-words")]
[JsonDerivedType(typeof(RecordedAnew), "recorded-anew")]
public abstract record TurnContent
{
    TurnContent()
    {
    }

    /// <summary>Opens a conversation in a language (a BCP 47 tag; an unknown one falls back to the first).</summary>
    public sealed record Begin(string Language) : TurnContent
    {
        /// <summary>What a clinician recorded of this person; null: nothing. It counts only in the first turn.</summary>
        public ImmutableArray<RecordedFact>? Recorded { get; init; }
    }

    /// <summary>Chosen or typed into the fields of a question.</summary>
    /// <param name="NoneOfThese">True if "none of these" of a checklist was ticked.</param>
    public sealed record Chosen(ImmutableArray<ChosenAnswer> Answers, bool NoneOfThese) : TurnContent;

    /// <summary>Typed freely.</summary>
    public sealed record Typed(string Text) : TurnContent;

    /// <summary>Asks an earlier question again.</summary>
    public sealed record Change(string Screen, Ear? Ear) : TurnContent;

    /// <summary>After an outcome: asks the danger signs again; never lowers the level by itself.</summary>
    public sealed record SomethingChanged : TurnContent;

    public sealed record StartOver : TurnContent;

    /// <summary>Asks for a private link to come back by; the face makes the secret, the store keeps its hash.</summary>
    public sealed record AskForLink : TurnContent;

    /// <summary>Came back by a private link.</summary>
    public sealed record CameBack : TurnContent;

    /// <summary>Asks for one of the answers of the edition, by its name; an unknown name asks for nothing.</summary>
    public sealed record AskAbout(string Answer) : TurnContent;

    /// <summary>After something was withdrawn or corrected: what is there to ask or to tell now.</summary>
    public sealed record GoOn : TurnContent;

    /// <summary>Lets clinicians read what was not understood of this conversation, without names, or takes that back.</summary>
    public sealed record ShareWords(bool IsAllowed) : TurnContent;

    /// <summary>A clinician corrected what was recorded: it counts from now on in the place of all that was recorded before.</summary>
    /// <param name="Version">From 2; one that comes after a later one changes nothing.</param>
    public sealed record RecordedAnew(int Version, ImmutableArray<RecordedFact> Recorded) : TurnContent;
}

/// <param name="Fact">The fact's id.</param>
/// <param name="Value">A value's name; for a number or a date the option's range as <c>3..5</c>, a number, or a date <c>2026-11-20</c>; null with <paramref name="NotSure"/>.</param>
public sealed record ChosenAnswer(string Fact, string? Value, bool NotSure);

/// <summary>What a clinician recorded of one fact: no answer of the person clears it.</summary>
/// <param name="Ear">Null for a fact about the person.</param>
/// <param name="Value">A value's name.</param>
/// <param name="Until">From then on it counts no more and is asked; null: it counts for good.</param>
public sealed record RecordedFact(string Fact, Ear? Ear, string Value, Instant? Until);
