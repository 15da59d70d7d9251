using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Triage.Rules;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.Visits;

/// <summary>What a plan says while the clinic is closed at once: the clinic stays in it only if it can still see the person before the limit.</summary>
static class ClosedNow
{
    /// <summary>The outcome with the places to go that are left.</summary>
    internal static OutcomeTold? In(ServedEdition edition, OutcomeTold? told, Instant now)
    {
        if (told is null || edition.Calendar.ClosedAtOnce(now) is null || told.SeenBy is not { } limit)
            return told;
        var clinics = edition.Dialog.Destinations.Where(d => d.Hours == DestinationHours.Clinic).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        if (!told.Destinations.Any(d => clinics.Contains(d.Id)))
            return told;
        var visit = edition.Calendar.FirstVisitBefore(now, limit);
        return visit is null
            ? told with { Destinations = told.Destinations.RemoveAll(d => clinics.Contains(d.Id)), ClinicIsTooLate = true }
            : told with { Destinations = [.. told.Destinations.Select(d => clinics.Contains(d.Id) ? d with { VisitAt = visit } : d)] };
    }

    /// <summary>That the clinic closed, and until when; nothing while it is not closed at once.</summary>
    internal static void WriteNotice(HtmlWriter html, Words words, ServedEdition edition, Instant now)
    {
        if (edition.Calendar.ClosedAtOnce(now) is { } closed)
            html.Markup("<p class=\"alarm\" role=\"alert\">"u8).Text(words.Letter.Text("closed at once", ("date", words.Letter.Date(closed.LastDay)))).Markup("</p>"u8);
    }
}
