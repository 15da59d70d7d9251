using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>Puts an answer into words: its text, the advice that is safe for this person, what comes next, and what its medical words mean.</summary>
sealed class AnswerLetter(Wording wording, AnswerWords answers, ClinicWords clinic)
{
    /// <summary>Told in place of a page whose review is overdue.</summary>
    public const string OutOfDate = "answer out of date";

    public Prose Write(PageTold told)
    {
        if (!wording.Answers.TryGetValue(told.Page, out var page))
            return Prose.Empty;
        var heading = ProseOf.Heading(page.Title);
        if (told.IsOutOfDate)
            return ProseOf.Together(heading, Fill(wording.Pages.GetValueOrDefault(OutOfDate, Prose.Empty)));
        return ProseOf.Together(
            heading,
            Fill(page.Text),
            told.Advice.IsEmpty ? Prose.Empty : ProseOf.Heading(answers.Word("answer advice")),
            ProseOf.Together([.. told.Advice.Select(Item)]),
            Fill(page.Next),
            Glossary(page));
    }

    Prose Item(AdviceTold item) => wording.Advice.TryGetValue(item.Id, out var words) ? clinic.Fill(words, item.Ear, _ => null) : Prose.Empty;

    /// <summary>Medical words of the page, each with its plain words and what it is.</summary>
    Prose Glossary(AnswerPage page)
    {
        var said = PlainText.Of(page.Text) + " " + PlainText.Of(page.Next);
        return ProseOf.List(wording.Glossary
            .Where(e => e.Terms.Any(t => said.Contains(t, StringComparison.OrdinalIgnoreCase)))
            .Select(e => ProseOf.Inlines(Fill(e.Meaning)).Insert(0, ProseOf.Plain(e.PlainWords[0] + ": "))));
    }

    Prose Fill(Prose prose) => clinic.Fill(prose, null, _ => null);
}
