using System.Collections.Immutable;
using EarHelp.Clinic.Callers;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Telling;
using EarHelp.Web.AfterVisit;
using EarHelp.Web.Desk;
using EarHelp.Web.Markup;
using EarHelp.Web.Visits;
using NodaTime;

namespace EarHelp.Web.Pages;

/// <summary>The outcome as a plan: a dated line from now to the visit and after it.</summary>
static class PlanPage
{
    internal static ReadOnlyMemory<byte> Write(
        Words words, ServedEdition edition, ImmutableArray<TurnTold> turns, OutcomeTold told, VisitInPlan visit, bool isAfterVisit, Caller? caller, string token, string nextTurn, Instant now)
    {
        var heading = words[words.Letter.IsSelf ? "plan heading" : "plan heading other"];
        return PageFrame.Write(words, new PageState(heading, token, HasQuestion: false), html =>
        {
            html.Markup("<div class=\"plan\" id=\"plan\"><h1 tabindex=\"-1\">"u8).Text(heading).Markup("</h1>"u8);
            CallerMark.Write(html, words, caller, isNow: told.Rank == 0);
            AftercareLink.Write(html, words, isAfterVisit && told.Rank > 0);
            ClosedNow.WriteNotice(html, words, edition, now);
            foreach (var shown in words.Letter.Write(new Reply.Outcome(told), now).OfType<LetterPart.OutcomeShown>())
                WritePlan(html, words, shown, visit);
            foreach (var passage in SaidWith(told, turns).SelectMany(r => words.Letter.Write(r, now)).OfType<LetterPart.Passage>())
            {
                html.Markup("<div class=\"note\">"u8);
                ProseWriter.Write(html, passage.Text);
                html.Markup("</div>"u8);
            }

            html.Markup("<p class=\"note\">"u8)
                .Text(words.Letter.Text("plan made", ("moment", words.Letter.Moment(told.DecidedAt)))).Markup("</p></div>"u8);
            WriteTools(html, words, token, nextTurn);
        });
    }

    /// <summary>What was said in the turn that led to the plan, e.g. that an earlier one still counts.</summary>
    static ImmutableArray<Reply> SaidWith(OutcomeTold told, ImmutableArray<TurnTold> turns) =>
        turns.LastOrDefault(t => t.Replies.OfType<Reply.Outcome>().Any(o => o.Told.DecidedAt == told.DecidedAt))?.Replies ?? [];

    static void WritePlan(HtmlWriter html, Words words, LetterPart.OutcomeShown shown, VisitInPlan visit)
    {
        var line = new TimeLine(html, words, shown);
        html.Markup("<section class=\"soon\">"u8);
        line.WriteSection(OutcomeSectionKind.HowSoon, tag: null);
        html.Markup("</section>"u8);
        WriteVisit(html, words, visit);
        line.Write();
        foreach (var kind in (OutcomeSectionKind[])[OutcomeSectionKind.Why, OutcomeSectionKind.GoodToKnow])
        {
            html.Markup("<section>"u8);
            line.WriteSection(kind, HeadingTag.Second);
            html.Markup("</section>"u8);
        }
    }

    static void WriteVisit(HtmlWriter html, Words words, VisitInPlan visit)
    {
        if (visit == VisitInPlan.None)
            return;
        var (heading, said, button) = visit switch
        {
            VisitInPlan.Offered => ("visit offer heading", "visit offer", "visit offer button"),
            VisitInPlan.NotWell => ("check-in plan heading", "check-in plan", "check-in plan button"),
            VisitInPlan.Answered => ("visit offer heading", "visit answered", "visit asked button"),
            _ => ("visit offer heading", "visit asked", "visit asked button"),
        };
        html.Markup("<section><h2>"u8).Text(words[heading]).Markup("</h2><p>"u8).Text(words[said]).Markup("</p><p><a class=\"button\" href=\"/visit\">"u8).Text(words[button]).Markup("</a></p></section>"u8);
    }

    static void WriteTools(HtmlWriter html, Words words, string token, string nextTurn)
    {
        html.Markup("<div class=\"tools\"><h2>"u8).Text(words["plan changed heading"]).Markup("</h2><p>"u8).Text(words["something has changed hint"])
            .Markup("</p><form method=\"post\" action=\"/changed\">"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, nextTurn);
        html.Markup("<p><button>"u8).Text(words["something has changed"]).Markup("</button></p></form><div class=\"row\">"u8)
            .Markup("<a class=\"button quiet\" href=\"/answers\">"u8).Text(words["answers heading"]).Markup("</a>"u8)
            .Markup("<a class=\"button quiet\" href=\"/letter\">"u8).Text(words["show all"]).Markup("</a>"u8)
            .Markup("<a class=\"button quiet\" href=\"/incident\">"u8).Text(words["incident link"]).Markup("</a>"u8)
            .Markup("<button type=\"button\" class=\"quiet\" data-do=\"print\" hidden>"u8).Text(words["print"])
            .Markup("</button><button type=\"button\" class=\"quiet\" data-do=\"read\" hidden"u8).Attribute("data-other"u8, words["stop reading"])
            .Markup(">"u8).Text(words["read aloud"]).Markup("</button></div>"u8);
        LetterPage.WriteStatus(html, words);
        html.Markup("</div>"u8);
    }
}
