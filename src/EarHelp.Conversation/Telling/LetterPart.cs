using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>
/// One part of what is told, in the words of one language with every blank filled. A face gives it its form and adds no words.
/// The texts hold runs and links only.
/// </summary>
public abstract record LetterPart
{
    /// <summary>Key of the passage that answers what was asked about.</summary>
    public const string AnswerKey = "answer";

    LetterPart()
    {
    }

    /// <param name="Key">The text's key, for a face that treats one text in its own way.</param>
    public sealed record Passage(string Key, Prose Text) : LetterPart;

    /// <summary>To be seen first and never hidden.</summary>
    public sealed record Emergency(Prose Text) : LetterPart;

    public sealed record Asked(QuestionShown Question) : LetterPart;

    /// <param name="Text">What was understood, as a question.</param>
    /// <param name="AskedNext">What is asked directly, whatever is confirmed; or null.</param>
    /// <param name="Yes">The label for confirming, which sends <paramref name="Understood"/> back as chosen answers.</param>
    /// <param name="No">The label for refusing, which sends none.</param>
    public sealed record ReadBackShown(QuestionName Name, string Text, string? AskedNext, ImmutableArray<UnderstoodShown> Understood, string Yes, string No) : LetterPart;

    /// <summary>Whether clinicians may read what was not understood.</summary>
    /// <param name="Label">Of the one button.</param>
    /// <param name="Allows">What the button says: they may, or they may no more.</param>
    public sealed record SharingOffered(Prose Text, string Label, bool Allows) : LetterPart;

    /// <param name="Text">That no answer was found, and whom to ask.</param>
    /// <param name="Topics">Answers that may be near.</param>
    public sealed record TopicsOffered(Prose Text, ImmutableArray<TopicShown> Topics) : LetterPart;

    public sealed record OutcomeShown(OutcomeTold Told, ImmutableArray<OutcomeSection> Sections) : LetterPart;
}

/// <param name="Id">The answer's name.</param>
public sealed record TopicShown(string Id, string Title);

/// <param name="Text">What was understood of one fact.</param>
/// <param name="Wrong">The label for saying that all is right but this.</param>
public sealed record UnderstoodShown(ReadBack Of, string Text, string Wrong);

/// <summary>A question in words.</summary>
/// <param name="Lead">What is said before it: that this is the second wording, or null.</param>
/// <param name="Hint">How to answer: choose one, choose all.</param>
/// <param name="None">The label of "none of these" on a checklist, or null.</param>
public sealed record QuestionShown(
    Question Question,
    string? Lead,
    Prose Ask,
    Prose Why,
    Prose Note,
    string Hint,
    ImmutableArray<FactShown> Facts,
    string? None);

/// <summary>One fact of a question.</summary>
/// <param name="Label">An entry's words on a checklist, the fact's own question on a form, empty where the question says it all.</param>
/// <param name="Brief">Names the answer in summaries.</param>
/// <param name="InputHint">How to type a number or a date, or null.</param>
/// <param name="NotSure">The label of "not sure", or null where it is not offered.</param>
public sealed record FactShown(
    AskedFact Asked,
    Prose Label,
    Prose Why,
    Prose Note,
    string Brief,
    ImmutableArray<OptionShown> Options,
    string? InputHint,
    string? NotSure)
{
    /// <summary>Where on the ear's drawing it is felt or seen, one of <see cref="EarPlaces"/>; empty: at no single place.</summary>
    public string Place { get; init; } = string.Empty;
}

/// <param name="Value">As in a chosen answer.</param>
public sealed record OptionShown(string Value, string Label);

public sealed record OutcomeSection(OutcomeSectionKind Kind, string Heading, Prose Text);

/// <summary>The sections of an outcome, in the order in which they are told.</summary>
public enum OutcomeSectionKind
{
    HowSoon,
    Where,
    MayTreat,
    ToDo,
    LeaveAlone,
    Protect,
    GetHelp,
    TakeNote,
    MoreUrgent,
    Why,
    GoodToKnow,
    ForTheClinician,
    IfNobodyAnswered,
    WhoDecides,
}
