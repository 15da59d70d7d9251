using System.Collections.Immutable;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;

namespace EarHelp.Conversation.Replies;

/// <summary>A screen as it is asked now.</summary>
/// <param name="Facts">Only those that still matter, in order.</param>
/// <param name="Kind">A form has several facts, each with the words of its own screen.</param>
public sealed record Question(QuestionName Name, ImmutableArray<AskedFact> Facts, QuestionKind Kind);

/// <param name="Options">Empty: typed in.</param>
/// <param name="Input">How it may be typed: null, a number or a date.</param>
/// <param name="OffersNotSure">False where the answer can always be known (who it is about).</param>
public sealed record AskedFact(string Fact, ImmutableArray<OfferedOption> Options, TypedInput? Input, bool OffersNotSure);

/// <param name="Value">As in <see cref="ChosenAnswer.Value"/>.</param>
/// <param name="Words">Index of the option's words in the edition's question, or null: the interface's yes and no.</param>
public sealed record OfferedOption(string Value, int? Words);

/// <param name="Kind"><see cref="Number"/> or <see cref="Date"/>.</param>
/// <param name="From">Of a number: the least; of a date: how long ago at least, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Of a date: <c>days</c> or <c>hours</c>, as its number counts.</param>
public sealed record TypedInput(string Kind, decimal? From, decimal? To, decimal? Step, string? Unit)
{
    public const string Number = "number";

    public const string Date = "date";
}
