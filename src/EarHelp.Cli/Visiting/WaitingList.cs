using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Cli.Visiting;

/// <summary>Requests for visits as lines for staff.</summary>
static class WaitingList
{
    const string Nothing = "-";

    /// <summary>By limit, then by level; who came first counts only between equals.</summary>
    public static ImmutableArray<KeptRequest> Sort(ImmutableArray<KeptRequest> waiting) =>
    [
        .. waiting.OrderBy(w => w.Request.Urgency.SeenBy ?? Instant.MaxValue).ThenBy(w => w.Request.Urgency.Rank).ThenBy(w => w.Request.MadeAt),
    ];

    public static string Write(ImmutableArray<KeptRequest> waiting, Instant now)
    {
        var text = new StringBuilder();
        foreach (var (request, contact) in waiting)
        {
            var urgency = request.Urgency;
            text.Append(urgency.Level).Append(": ").Append(urgency.SeenBy is { } limit ? $"seen by {At(limit)}, {Left(limit - now)}" : "no limit");
            if (urgency.AnswerBy is { } answer)
                text.Append(CultureInfo.InvariantCulture, $"; goes elsewhere if not answered by {At(answer)}, {Left(answer - now)}");
            text.Append("\n  asked ").Append(At(request.MadeAt)).Append("  conversation ").Append(request.Conversation).Append('\n');
            if (request.Booked is { } visit)
                text.Append("  visit ").Append(At(visit.Start)).Append(" to ").Append(At(visit.End)).Append(visit.End > urgency.SeenBy ? ", AFTER THE LIMIT\n" : "\n");
            if (contact is not null)
                Write(text, contact);
        }

        return text.Append(waiting.Length == 1 ? "1 request waits.\n" : $"{waiting.Length} requests wait.\n").ToString();
    }

    static void Write(StringBuilder text, ContactDetails contact)
    {
        text.Append("  for ").Append(OrNothing(contact.Name));
        if (contact.AskedBy.Length > 0)
            text.Append(", asked by ").Append(contact.AskedBy);
        text.Append("  ").Append(InWords(contact.ReachBy)).Append(": ").Append(OrNothing(contact.Number)).Append("  ").Append(OrNothing(contact.Email)).Append('\n');
        var needs = contact.Needs;
        string[] helps =
        [
            .. needs.Interpreter ? new[] { $"interpreter ({OrNothing(needs.Language)})" } : [],
            .. needs.SignLanguage ? new[] { "sign language interpreter" } : [],
            .. needs.StepFree ? new[] { "way in without steps" } : [],
            .. needs.Carer ? new[] { "someone comes along" } : [],
            .. needs.Chaperone ? new[] { "chaperone" } : [],
            .. needs.BeenBefore ? new[] { "was here before" } : [],
        ];
        if (helps.Length > 0)
            text.Append("  helps: ").AppendJoin(", ", helps).Append('\n');
        if (needs.Note.Length > 0)
            text.Append("  note: ").Append(needs.Note.ReplaceLineEndings(" ")).Append('\n');
    }

    static string OrNothing(string said) => said.Length == 0 ? Nothing : said;

    static string InWords(ReachBy way) => way switch
    {
        ReachBy.TextMessage => "by text message",
        ReachBy.Email => "by e-mail",
        ReachBy.Call => "by phone call",
        ReachBy.RelayCall => "by relay call",
        _ => "any way",
    };

    static string At(Instant moment) => moment.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    static string Left(Duration left) =>
        left < Duration.Zero ? $"{InWords(-left)} LATE" : $"{InWords(left)} left";

    static string InWords(Duration time) =>
        time.TotalHours >= 48 ? string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(time.TotalDays):0} days")
        : time.TotalMinutes >= 120 ? string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(time.TotalHours):0} hours")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(time.TotalMinutes):0} minutes");
}
