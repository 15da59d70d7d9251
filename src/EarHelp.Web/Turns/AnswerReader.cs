using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Asking;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Turns;

/// <summary>Reads a sent form. What is plainly missing or double is said at once; whether an answer fits is the conversation's to say.</summary>
sealed class AnswerReader(IFormCollection fields, Words words)
{
    /// <summary>The longest message, in letters.</summary>
    const int LongestMessage = 4000;

    readonly ImmutableArray<FormFault>.Builder _faults = ImmutableArray.CreateBuilder<FormFault>();
    readonly ImmutableArray<ChosenAnswer>.Builder _answers = ImmutableArray.CreateBuilder<ChosenAnswer>();

    /// <param name="question">The question of now if the form answers it; null: an older one, of which nothing is known here.</param>
    internal ReadAnswer Read(Question? question)
    {
        var text = fields[AnswerFields.OwnWords].ToString().Trim();
        if (text.Length > LongestMessage)
            Fault(null, words.Letter.Text("text too long", ("count", LongestMessage.ToString(CultureInfo.InvariantCulture))));
        var isNone = fields.ContainsKey(AnswerFields.None);
        if (question is null)
            ReadBlindly();
        else
            ReadFacts(question, isNone, hasText: text.Length > 0);
        var hasAnswer = isNone || _answers.Count > 0;
        return new ReadAnswer(
            hasAnswer ? new TurnContent.Chosen(_answers.ToImmutable(), isNone) : null,
            text.Length > 0 ? new TurnContent.Typed(text) : null,
            _faults.ToImmutable());
    }

    void ReadBlindly()
    {
        foreach (var (name, values) in fields.Where(f => f.Key.StartsWith(AnswerFields.Chosen, StringComparison.Ordinal)))
        {
            foreach (var value in values.OfType<string>())
                Add(name[AnswerFields.Chosen.Length..], value);
        }
    }

    void ReadFacts(Question question, bool isNone, bool hasText)
    {
        var before = _faults.Count;
        var isNeeded = question.Kind == QuestionKind.Form ? !hasText || !IsLeftBlank(question) : question.Kind == QuestionKind.OneFact && !hasText;
        foreach (var fact in question.Facts)
            ReadFact(fact, isNeeded);
        if (question.Kind != QuestionKind.Checklist)
            return;
        if (isNone && _answers.Count > 0)
            Fault(null, words["none and others"]);
        else if (!isNone && _answers.Count == 0 && !hasText && _faults.Count == before)
            Fault(null, words["nothing chosen"]);
    }

    /// <summary>A form of which nothing is filled in leaves everything to what is written beside it.</summary>
    bool IsLeftBlank(Question question) =>
        !question.Facts.Any(f => fields[AnswerFields.Chosen + f.Fact].Any(v => v?.Length > 0) || fields[AnswerFields.Number + f.Fact].Any(v => v?.Length > 0));

    void ReadFact(AskedFact fact, bool isNeeded)
    {
        var chosen = fields[AnswerFields.Chosen + fact.Fact].OfType<string>().Where(v => v.Length > 0).Distinct().ToList();
        var typed = fact.Input is null ? null : new TypedAnswer(fields, words).Read(fact.Fact, fact.Input);
        if (typed?.Fault is { } fault)
            Fault(fact.Fact, fault);
        else if (chosen.Count + (typed is null ? 0 : 1) > 1)
            Fault(fact.Fact, words["yes and unsure"]);
        else if (typed?.Value is { } value)
            Add(fact.Fact, value);
        else if (chosen.Count == 1)
            Add(fact.Fact, chosen[0]);
        else if (isNeeded)
            Fault(fact.Fact, words[fact.OffersNotSure ? "nothing chosen" : "answer missing"]);
    }

    void Add(string fact, string value) =>
        _answers.Add(new ChosenAnswer(fact, value == AnswerFields.NotSure ? null : value, value == AnswerFields.NotSure));

    void Fault(string? fact, string message) => _faults.Add(new FormFault(fact, message));
}

/// <param name="Chosen">Null: nothing was chosen.</param>
/// <param name="Typed">Null: nothing was written.</param>
/// <param name="Faults">If there is any, the form is shown again and no turn is taken.</param>
sealed record ReadAnswer(TurnContent.Chosen? Chosen, TurnContent.Typed? Typed, ImmutableArray<FormFault> Faults);
