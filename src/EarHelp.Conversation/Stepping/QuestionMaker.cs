using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;

namespace EarHelp.Conversation.Stepping;

/// <summary>Makes questions of screens.</summary>
static class QuestionMaker
{
    public static Question Of(ServedEdition edition, string language, ScreenToAsk screen, int wording, int turn)
    {
        var facts = ImmutableArray.CreateBuilder<AskedFact>(screen.Facts.Length);
        foreach (var fact in screen.Facts)
            facts.Add(edition.AskedIn(language, fact));
        return new Question(new QuestionName(screen.Screen, screen.Ear, wording, turn), facts.MoveToImmutable(), screen.Kind);
    }

    /// <summary>Facts of one screen and ear, as its question.</summary>
    public static ScreenToAsk Together(Screen screen, Ear? ear, ImmutableArray<int> facts) =>
        new(screen.Id, screen.IsChecklist ? QuestionKind.Checklist : QuestionKind.OneFact, ear, facts);

    /// <summary>What was answered on a screen, to be asked again; null if nothing was.</summary>
    public static ScreenToAsk? Answered(ServedEdition edition, ReadOnlySpan<GivenAnswer> answers, string screen, Ear? ear)
    {
        var isForm = string.Equals(screen, ScreenToAsk.FormScreen, StringComparison.Ordinal);
        var found = isForm ? null : edition.Screen(screen);
        if (!isForm && found is null)
            return null;
        var ofEar = found?.About == About.Ear ? ear : null;
        var facts = ImmutableArray.CreateBuilder<int>();
        foreach (var (of, _) in answers)
        {
            if (of.Ear == ofEar && (isForm ? edition.Dialog.Facts[of.Fact].AskIn == AskIn.Form : edition.ScreenOf[of.Fact].Index == found!.Index))
                facts.Add(of.Fact);
        }

        if (facts.Count == 0)
            return null;
        return found is null || found.AskIn == AskIn.Form
            ? new ScreenToAsk(ScreenToAsk.FormScreen, QuestionKind.Form, null, facts.ToImmutable())
            : Together(found, ofEar, facts.ToImmutable());
    }

    public static AskedFact AskedFact(ServedEdition edition, string language, Fact fact)
    {
        var screen = edition.ScreenOf[fact.Index];
        var words = screen.IsChecklist ? null : edition.Edition.Wordings[language].Questions.GetValueOrDefault(screen.Id);
        ImmutableArray<OfferedOption> options = words is null || words.Options.IsEmpty
            ? Unlisted(fact)
            : [.. words.Options.Select((o, i) => new OfferedOption(WrittenValue.Of(fact, o.Values), i))];
        return new AskedFact(fact.Id, options, InputOf(fact, options.Length > 0), fact.Index != edition.AboutWhom);
    }

    static ImmutableArray<OfferedOption> Unlisted(Fact fact) => fact.Values switch
    {
        FactValues.Named { IsYesNo: true } => [new OfferedOption("yes", null), new OfferedOption("no", null)],
        FactValues.Named named => [.. named.Names.Select(n => new OfferedOption(n, null))],
        _ => [],
    };

    static TypedInput? InputOf(Fact fact, bool hasOptions)
    {
        if (fact.Values is not FactValues.Numbers numbers)
            return null;
        if (fact.Counted is { } counted)
            return new TypedInput(TypedInput.Date, numbers.From, numbers.To, null, counted.Unit == CountUnit.Days ? "days" : "hours");
        return hasOptions ? null : new TypedInput(TypedInput.Number, numbers.From, numbers.To, numbers.Step, numbers.Unit);
    }
}
