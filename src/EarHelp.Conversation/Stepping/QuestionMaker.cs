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
    const string AboutWhom = "about whom";
    const string Yes = "yes";
    const string No = "no";

    public static Question Of(ServedEdition edition, string language, ScreenToAsk screen, int wording, int turn) =>
        new(
            new QuestionName(screen.Screen, screen.Ear, wording, turn),
            [.. screen.Facts.Select(f => AskedFact(edition, language, edition.Dialog.Facts[f]))],
            screen.Kind);

    /// <summary>The whole screen again, or the form's part of it, to change an answer.</summary>
    public static Question? Again(ServedEdition edition, ConversationState state, string screen, Ear? ear, int wording, int turn)
    {
        if (screen == ScreenToAsk.FormScreen)
        {
            ImmutableArray<int> form = [.. edition.Dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.Index)];
            return Of(edition, state.Language, new ScreenToAsk(screen, QuestionKind.Form, null, form), 1, turn);
        }

        var found = edition.Dialog.Screens.FirstOrDefault(s => string.Equals(s.Id, screen, StringComparison.Ordinal));
        if (found is null)
            return null;
        var ofEar = found.About == About.Ear ? ear : null;
        ImmutableArray<int> facts = [.. found.Facts.Where(f => state.Answers.Find(new FactOfEar(f, ofEar)) is not null)];
        if (facts.IsEmpty)
            return null;
        var kind = found.AskIn == AskIn.Form ? QuestionKind.Form : found.IsChecklist ? QuestionKind.Checklist : QuestionKind.OneFact;
        return Of(edition, state.Language, new ScreenToAsk(found.Id, kind, ofEar, facts), wording, turn);
    }

    static AskedFact AskedFact(ServedEdition edition, string language, Fact fact)
    {
        var words = edition.Edition.Wordings[language].Questions.GetValueOrDefault(fact.Id);
        var options = ImmutableArray.CreateBuilder<OfferedOption>();
        if (words is not null)
        {
            for (var i = 0; i < words.Options.Length; i++)
                options.Add(new OfferedOption(WrittenValue.Of(fact, words.Options[i].Values), i));
        }

        if (options.Count == 0 && fact.IsYesNo)
        {
            options.Add(new OfferedOption(Yes, null));
            options.Add(new OfferedOption(No, null));
        }

        return new AskedFact(fact.Id, options.ToImmutable(), InputOf(fact, options.Count > 0), !string.Equals(fact.Id, AboutWhom, StringComparison.Ordinal));
    }

    static TypedInput? InputOf(Fact fact, bool hasOptions)
    {
        if (fact.Values is not FactValues.Numbers numbers)
            return null;
        if (fact.Counted is { } counted)
            return new TypedInput(TypedInput.Date, numbers.From, numbers.To, null, counted.Unit == CountUnit.Days ? "days" : "hours");
        return hasOptions ? null : new TypedInput(TypedInput.Number, numbers.From, numbers.To, numbers.Step, numbers.Unit);
    }
}
