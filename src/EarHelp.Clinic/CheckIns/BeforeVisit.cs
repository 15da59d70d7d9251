using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>What a patient is told by mail about a request for a visit.</summary>
public static class BeforeVisit
{
    /// <summary>Answers before a visit stand under no day after one.</summary>
    public const int Day = 0;

    /// <summary>News first. A visit that is moved brings a reminder of its own.</summary>
    public static ImmutableArray<DueMessage> Of(Edition edition, VisitRequest request)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(request);
        var messages = ImmutableArray.CreateBuilder<DueMessage>();
        if (NewsAt(request) is { } news)
            messages.Add(new DueMessage(MessageKind.News, NameOf("news", news), news, news + Duration.FromDays(edition.Clinic.RequestKeptDays)));
        if (Reminder(edition, request) is { } reminder)
            messages.Add(reminder);
        return messages.ToImmutable();
    }

    /// <summary>Null without a booked visit, or if the clinic reminds of none.</summary>
    public static DueMessage? Reminder(Edition edition, VisitRequest request)
    {
        ArgumentNullException.ThrowIfNull(edition);
        ArgumentNullException.ThrowIfNull(request);
        if (edition.Clinic.ReminderDays == 0 || request.Booked is not { } booked)
            return null;
        var day = booked.Start.InZone(edition.Clinic.Zone).Date.PlusDays(-edition.Clinic.ReminderDays);
        return new DueMessage(MessageKind.BeforeVisit, NameOf("before", booked.Start), edition.Clinic.Zone.AtLeniently(day + edition.Clinic.MessagesFrom).ToInstant(), booked.Start);
    }

    /// <summary>When staff last said something that the patient has not heard from them, or null.</summary>
    static Instant? NewsAt(VisitRequest request)
    {
        var moments = request.Steps.Where(s => s.IsByStaff && s.Kind is not (DeskStepKind.NotReached or DeskStepKind.Telephoned)).Select(s => s.At).ToList();
        if (request.Judged is { } judged)
            moments.Add(judged.At);
        return moments.Count == 0 ? null : moments.Max();
    }

    static string NameOf(string what, Instant at) => string.Create(CultureInfo.InvariantCulture, $"{what} {at.ToUnixTimeMilliseconds()}");
}
