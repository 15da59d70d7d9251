using System.Collections.Immutable;
using EarHelp.Conversation.Telling;
using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Pages;

/// <summary>Says what was chosen: one line a fact, a checklist in one line for yes and one for "not sure".</summary>
static class AnswerLines
{
    internal static ImmutableArray<(string Asked, string Answer)> Of(LetterWriter letter, TurnContent.Chosen chosen, QuestionName question)
    {
        if (chosen.NoneOfThese)
            return [(letter.BriefOfScreen(question.Screen, question.Ear), letter.Text("none of these"))];
        var isChecklist = chosen.Answers.Length > 0 && chosen.Answers.All(a => a.NotSure || a.Value == "yes")
            && chosen.Answers.Any(a => !IsNamedAfterScreen(letter, a, question));
        return isChecklist ? OfChecklist(letter, chosen, question) : [.. chosen.Answers.Select(a => OfOne(letter, a, question))];
    }

    static ImmutableArray<(string Asked, string Answer)> OfChecklist(LetterWriter letter, TurnContent.Chosen chosen, QuestionName question)
    {
        var lines = ImmutableArray.CreateBuilder<(string, string)>();
        var yes = chosen.Answers.Where(a => !a.NotSure).Select(a => letter.Brief(a.Fact, null)).ToList();
        if (yes.Count > 0)
            lines.Add((letter.BriefOfScreen(question.Screen, question.Ear), string.Join(", ", yes)));
        foreach (var unsure in chosen.Answers.Where(a => a.NotSure))
            lines.Add(OfOne(letter, unsure, question));
        return lines.ToImmutable();
    }

    static (string Asked, string Answer) OfOne(LetterWriter letter, ChosenAnswer answer, QuestionName question) =>
        (letter.Brief(answer.Fact, question.Ear), letter.Value(answer.Fact, answer.NotSure ? null : answer.Value));

    static bool IsNamedAfterScreen(LetterWriter letter, ChosenAnswer answer, QuestionName question) =>
        letter.Brief(answer.Fact, question.Ear) == letter.BriefOfScreen(question.Screen, question.Ear);
}
