using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Conversation.Telling;

/// <summary>Puts a question into words.</summary>
sealed class QuestionLetter(Dialog dialog, Wording wording, AnswerWords answers, ClinicWords clinic)
{
    public QuestionShown Write(Question question)
    {
        var isAgain = question.Name.Wording > 1;
        var ear = question.Name.Ear;
        var lead = question.Name.Wording == 2 ? clinic.Fill(answers.Word("second wording"), ear, _ => null) : null;
        var hint = answers.Word(question.Kind == QuestionKind.Checklist ? "choose all" : "choose one");
        var facts = ImmutableArray.CreateBuilder<FactShown>(question.Facts.Length);
        foreach (var asked in question.Facts)
            facts.Add(WriteFact(question, asked));
        if (!wording.Questions.TryGetValue(question.Name.Screen, out var words))
            return new QuestionShown(question, lead, FormHeading(), FormWhy(), Prose.Empty, hint, facts.MoveToImmutable(), null);
        var ask = isAgain && question.Kind == QuestionKind.OneFact && !words.Again.IsEmpty ? words.Again : words.Ask;
        var none = question.Kind == QuestionKind.Checklist
            ? clinic.Fill(words.None ?? answers.Word("none of these"), ear, _ => null)
            : null;
        return new QuestionShown(
            question, lead, Fill(ask, ear), Fill(words.Why, ear), Fill(words.Note, ear), hint, facts.MoveToImmutable(), none);
    }

    FactShown WriteFact(Question question, AskedFact asked)
    {
        var fact = dialog.FindFact(asked.Fact) ?? throw new InvalidOperationException($"The edition has no fact \"{asked.Fact}\".");
        var ear = question.Name.Ear;
        var isAgain = question.Name.Wording > 1;
        var words = answers.QuestionOf(fact.Index);
        var entry = answers.EntryOf(fact.Index);
        var (label, why, note) = question.Kind switch
        {
            QuestionKind.Form => (words?.Ask ?? Prose.Empty, words?.Why ?? Prose.Empty, words?.Note ?? Prose.Empty),
            QuestionKind.Checklist when entry is not null =>
                (isAgain && !entry.Again.IsEmpty ? entry.Again : entry.Label, Prose.Empty, Prose.Empty),
            _ => (Prose.Empty, Prose.Empty, Prose.Empty),
        };
        var notSure = asked.OffersNotSure ? answers.Word(question.Name.Wording == 2 ? "second wording unsure" : "not sure") : null;
        return new FactShown(
            asked, Fill(label, ear), Fill(why, ear), Fill(note, ear), answers.Brief(fact.Index, ear), Options(asked, words, ear), Hint(asked), notSure)
        {
            Place = question.Kind == QuestionKind.Checklist && entry is not null ? entry.Place : string.Empty,
        };
    }

    ImmutableArray<OptionShown> Options(AskedFact asked, QuestionWords? words, Ear? ear)
    {
        var shown = ImmutableArray.CreateBuilder<OptionShown>(asked.Options.Length);
        foreach (var option in asked.Options)
        {
            var label = option.Words is { } index && words is not null ? words.Options[index].Label : answers.Word(option.Value);
            shown.Add(new OptionShown(option.Value, clinic.Fill(label, ear, _ => null)));
        }

        return shown.MoveToImmutable();
    }

    string? Hint(AskedFact asked) => asked.Input switch
    {
        null => null,
        { Kind: TypedInput.Date } => clinic.Fill(answers.Word("date hint"), null, name => name == "example" ? Example() : null),
        var number => clinic.Fill(answers.Word("number hint"), null, name => name switch
        {
            "from" => number.From?.ToString(CultureInfo.InvariantCulture),
            "to" => number.To?.ToString(CultureInfo.InvariantCulture),
            _ => null,
        }),
    };

    /// <summary>The example shows the form of a date; it is nobody's date.</summary>
    string Example() => clinic.Times.Date(new LocalDate(2026, 8, 12));

    Prose FormHeading() => ProseOf.Line(clinic.Fill(answers.Word("start heading"), null, _ => null));

    Prose FormWhy() => ProseOf.Line(clinic.Fill(answers.Word("start form why"), null, _ => null));

    Prose Fill(Prose text, Ear? ear) => clinic.Fill(text, ear, _ => null);
}
