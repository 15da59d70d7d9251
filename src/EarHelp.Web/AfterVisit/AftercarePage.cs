using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.AfterVisit;

/// <summary>The plan after a visit: what was found, what to mind on which day, and each point in full.</summary>
static class AftercarePage
{
    internal const string Size = "size", Large = "large";

    /// <param name="asked">The check-in of now, or null.</param>
    internal static ReadOnlyMemory<byte> Write(Words words, Visit visit, OpenCheckIn? asked, LocalDate today, string token, bool isLarge)
    {
        var plan = AftercarePlan.Of(words.Edition, visit);
        var heading = words.Letter.Text("aftercare heading", ("day", words.Letter.Date(visit.At.InZone(words.Edition.Clinic.Zone).Date)));
        return PageFrame.Write(words, new PageState(heading, token, HasQuestion: false), html =>
        {
            html.Markup(isLarge ? "<div class=\"plan large\" id=\"plan\"><h1 tabindex=\"-1\">"u8 : "<div class=\"plan\" id=\"plan\"><h1 tabindex=\"-1\">"u8).Text(heading)
                .Markup("</h1><p>"u8).Text(words["aftercare hint"]).Markup("</p>"u8);
            WriteCorrected(html, words, visit);
            CheckInPage.WriteWay(html, words, asked);
            WriteAsking(html, words);
            html.Element("h2"u8, words["aftercare found"]).Markup("<ul>"u8);
            foreach (var seen in visit.Findings)
                html.Markup("<li>"u8).Text(OfEar(words, seen.Ear, words.Letter.Finding(seen.Finding, seen.Ear))).Markup("</li>"u8);
            html.Markup("</ul>"u8);
            WriteDays(html, words, plan, today);
            WriteInFull(html, words, plan, today);
            html.Markup("</div>"u8);
            WriteTools(html, words, isLarge);
        });
    }

    static void WriteCorrected(HtmlWriter html, Words words, Visit visit)
    {
        if (visit.Correction is { } correction)
        {
            html.Markup("<section class=\"note\" id=\"corrected\"><h2>"u8).Text(words["aftercare corrected heading"]).Markup("</h2><p>"u8)
                .Text(words.Letter.Text("aftercare corrected", ("moment", words.Letter.Moment(correction.At)))).Markup("</p></section>"u8);
        }
    }

    static void WriteAsking(HtmlWriter html, Words words) =>
        html.Markup("<section class=\"note\"><h2>"u8).Text(words["aftercare ask heading"]).Markup("</h2><p>"u8).Text(words["aftercare ask hint"])
            .Markup("</p><p><a class=\"button\" href=\"/letter#now\">"u8).Text(words["aftercare ask"]).Markup("</a></p></section>"u8);

    /// <summary>Each point once, under the days on which it counts, what ends first before the rest; days that are over are left out.</summary>
    static void WriteDays(HtmlWriter html, Words words, ImmutableArray<PlannedStep> plan, LocalDate today)
    {
        html.Element("h2"u8, words["aftercare days"]);
        var left = plan.Index().Where(s => s.Item.To >= today).GroupBy(s => (s.Item.To, s.Item.From)).OrderBy(g => g.Key).ToList();
        if (left.Count == 0)
            html.Element("p"u8, words["aftercare over"]);
        foreach (var days in left)
        {
            html.Markup("<h3>"u8).Text(Named(words, days.Key.From, days.Key.To, today)).Markup("</h3><ul>"u8);
            foreach (var (number, step) in days)
            {
                html.Markup("<li><a href=\"#point-"u8).Number(number + 1).Markup("\">"u8).Text(words.Letter.Headline(step.Advice, step.Ear)).Markup("</a></li>"u8);
            }

            html.Markup("</ul>"u8);
        }
    }

    static void WriteInFull(HtmlWriter html, Words words, ImmutableArray<PlannedStep> plan, LocalDate today)
    {
        html.Element("h2"u8, words["aftercare in full"]);
        foreach (var (number, step) in plan.Index())
        {
            html.Markup("<section><h3 id=\"point-"u8).Number(number + 1).Markup("\">"u8).Text(words.Letter.Headline(step.Advice, step.Ear)).Markup("</h3><p class=\"hint\">"u8)
                .Text(Named(words, step.From, step.To, today)).Markup("</p>"u8);
            ProseWriter.Write(html, words.Letter.Below(step.Advice, step.Ear));
            html.Markup("</section>"u8);
        }
    }

    static void WriteTools(HtmlWriter html, Words words, bool isLarge)
    {
        html.Markup("<div class=\"tools\"><div class=\"row\"><a class=\"button quiet\""u8).Attribute("href"u8, isLarge ? AftercarePages.Address : $"{AftercarePages.Address}?{Size}={Large}")
            .Markup(">"u8).Text(words[isLarge ? "aftercare small" : "aftercare large"]).Markup("</a><a class=\"button quiet\""u8)
            .Attribute("href"u8, AftercarePages.Address + "/calendar").Markup(">"u8).Text(words["aftercare calendar"])
            .Markup("</a><button type=\"button\" class=\"quiet\" data-do=\"print\" hidden>"u8).Text(words["print"])
            .Markup("</button><button type=\"button\" class=\"quiet\" data-do=\"read\" hidden"u8).Attribute("data-other"u8, words["stop reading"])
            .Markup(">"u8).Text(words["read aloud"]).Markup("</button></div>"u8);
        LetterPage.WriteStatus(html, words);
        html.Markup("</div>"u8);
    }

    /// <summary>What has begun is named by its end alone.</summary>
    static string Named(Words words, LocalDate from, LocalDate to, LocalDate today) => from <= today
        ? words.Letter.Text("aftercare until", ("last", words.Letter.Date(to)))
        : words.Letter.Text("aftercare stretch", ("first", words.Letter.Date(from)), ("last", words.Letter.Date(to)));

    static string OfEar(Words words, Ear? ear, string said) => ear switch
    {
        Ear.Left => words.Letter.Text("aftercare left ear", ("words", said)),
        Ear.Right => words.Letter.Text("aftercare right ear", ("words", said)),
        _ => said,
    };
}
