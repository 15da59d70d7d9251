using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>The part of a request's page in which the patient reads what staff said and did about it.</summary>
static class ClinicAnswer
{
    internal static void Write(HtmlWriter html, Words words, VisitRequest request, OutcomeTold? told, Instant now)
    {
        if (IsNone(request))
            return;
        var shown = In(request, told);
        if (IsJudged(request, told) && shown is { Rank: 0 })
        {
            html.Markup("<div class=\"alarm\" role=\"alert\">"u8);
            foreach (var emergency in words.Letter.Write(new Reply.Alarm(null, shown.Level), now).OfType<LetterPart.Emergency>())
                ProseWriter.Write(html, emergency.Text);
            html.Markup("</div>"u8);
        }

        html.Markup("<section id=\"answer\"><h2>"u8).Text(words["answer clinic heading"]).Markup("</h2>"u8);
        if (request.Judged is { } judged)
            html.Element("p"u8, words.Letter.Text("answer clinic judged", ("moment", words.Letter.Moment(judged.At)), ("reason", judged.Because)));
        foreach (var step in request.Steps.Where(s => s.IsByStaff).Reverse())
            html.Element("p"u8, words.Letter.Text(KeyOf(step.Kind), ("moment", words.Letter.Moment(step.At)), ("time", step.Time is { } time ? words.Letter.Moment(time.Start) : string.Empty), ("note", step.Kind == DeskStepKind.SentElsewhere ? step.Note : string.Empty)));
        if (shown is not null && (IsJudged(request, told) || Elsewhere(request) is not null))
            WriteSections(html, words, shown, now, IsJudged(request, told) ? OutcomeSectionKind.HowSoon : OutcomeSectionKind.Where);
        html.Markup("</section>"u8);
    }

    /// <summary>True while staff have said nothing that the patient reads.</summary>
    internal static bool IsNone(VisitRequest request) => request.Judged is null && !request.Steps.Any(s => s.IsByStaff);

    /// <summary>The outcome as it stands after staff: their level and limit, and the place to which they sent the person. What was told later stays.</summary>
    internal static OutcomeTold? In(VisitRequest request, OutcomeTold? told)
    {
        if (told is null)
            return null;
        if (IsJudged(request, told))
        {
            var urgency = request.Judged!.Urgency;
            told = told with { Level = urgency.Level, Rank = urgency.Rank, SeenBy = urgency.SeenBy, AnswerBy = urgency.AnswerBy, IsOverdue = false };
        }

        return Elsewhere(request) is { } place ? told with { Destinations = [new DestinationTold(place, null)] } : told;
    }

    static bool IsJudged(VisitRequest request, OutcomeTold? told) => request.Judged is { } judged && (told is null || told.DecidedAt <= judged.At);

    static string? Elsewhere(VisitRequest request) => request.Steps.LastOrDefault()?.Place;

    static void WriteSections(HtmlWriter html, Words words, OutcomeTold told, Instant now, OutcomeSectionKind kind)
    {
        foreach (var section in words.Letter.Write(new Reply.Outcome(told), now).OfType<LetterPart.OutcomeShown>().SelectMany(o => o.Sections).Where(s => s.Kind == kind))
            ProseWriter.Write(html, section.Text);
    }

    static string KeyOf(DeskStepKind kind) => kind switch
    {
        DeskStepKind.Accepted => "answer clinic accepted",
        DeskStepKind.OfferedTime => "answer clinic offered",
        DeskStepKind.Telephoned => "answer clinic telephoned",
        DeskStepKind.NotReached => "answer clinic not reached",
        DeskStepKind.SentElsewhere => "answer clinic elsewhere",
        DeskStepKind.CalledOff => "answer clinic called off",
        DeskStepKind.DidNotCome => "answer clinic did not come",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
