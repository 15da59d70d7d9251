using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The sections of an outcome in the order of time: now, until then, if nobody answers, the visit, after it.</summary>
sealed class TimeLine(HtmlWriter html, Words words, LetterPart.OutcomeShown shown)
{
    internal void Write()
    {
        var told = shown.Told;
        html.Markup("<h2>"u8).Text(words["time line"]).Markup("</h2><ol class=\"line-of-time\">"u8);
        WriteMoment(words["time line now"], told.DecidedAt, OutcomeSectionKind.Where);
        WriteMoment(
            told.SeenBy is { } seenBy && told.Rank > 0
                ? words.Letter.Text("time line until", ("seen by", words.Letter.Moment(seenBy)))
                : words["what to do"],
            null,
            OutcomeSectionKind.ToDo,
            OutcomeSectionKind.LeaveAlone,
            OutcomeSectionKind.Protect,
            OutcomeSectionKind.GetHelp,
            OutcomeSectionKind.TakeNote,
            OutcomeSectionKind.MoreUrgent);
        WriteMoment(words["if nobody answered"], told.AnswerBy, OutcomeSectionKind.IfNobodyAnswered);
        WriteMoment(words["time line seen"], told.Rank > 0 ? told.SeenBy : null, OutcomeSectionKind.MayTreat, OutcomeSectionKind.ForTheClinician);
        WriteMoment(words["time line after"], null, OutcomeSectionKind.WhoDecides);
        html.Markup("</ol>"u8);
    }

    /// <param name="tag">Of the section's heading; null: it is only heard, because the page's own heading says it.</param>
    /// <param name="above">The heading right above, which is not said twice.</param>
    internal void WriteSection(OutcomeSectionKind kind, HeadingTag? tag, string? above = null)
    {
        foreach (var section in shown.Sections)
        {
            if (section.Kind != kind)
                continue;
            var level = (int)(tag ?? HeadingTag.Second);
            var isSaid = section.Heading == above;
            if (!isSaid)
                html.Markup("<h"u8).Number(level).Markup(tag is null ? " class=\"heard\">"u8 : ">"u8).Text(section.Heading)
                    .Markup("</h"u8).Number(level).Markup(">"u8);
            ProseWriter.Write(html, section.Text, (HeadingTag)(isSaid ? level : level + 1));
        }
    }

    /// <param name="at">The moment under its heading, or null.</param>
    void WriteMoment(string heading, Instant? at, params ReadOnlySpan<OutcomeSectionKind> kinds)
    {
        if (!HasAny(kinds))
            return;
        html.Markup("<li>"u8).Element("h3"u8, heading);
        if (at is { } moment)
        {
            html.Markup("<time"u8).Attribute("datetime"u8, NodaTime.Text.InstantPattern.ExtendedIso.Format(moment)).Markup(">"u8)
                .Text(words.Letter.Moment(moment)).Markup("</time>"u8);
        }

        foreach (var kind in kinds)
            WriteSection(kind, HeadingTag.Fourth, heading);
        html.Markup("</li>"u8);
    }

    bool HasAny(ReadOnlySpan<OutcomeSectionKind> kinds)
    {
        foreach (var section in shown.Sections)
        {
            if (kinds.Contains(section.Kind))
                return true;
        }

        return false;
    }
}
