using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Clinic.Figures;

/// <summary>When a request that stands was answered.</summary>
/// <param name="Level">As urgent as it was when it was answered, else as it is now.</param>
public sealed record CountedRequest(Instant AskedAt, string Level, AnsweredWhen When)
{
    public static CountedRequest Of(VisitRequest request, Instant now)
    {
        ArgumentNullException.ThrowIfNull(request);
        var asked = request.SentAgainAt ?? request.MadeAt;
        var answer = request.Steps.FirstOrDefault(s => s.At >= asked && IsAnswer(s.Kind));
        var urgency = answer?.Seen ?? request.Judged?.Urgency ?? request.Urgency;
        return new CountedRequest(asked, urgency.Level, WhenOf(asked, answer?.At, urgency.AnswerBy, now));
    }

    static bool IsAnswer(DeskStepKind kind) =>
        kind is DeskStepKind.Accepted or DeskStepKind.OfferedTime or DeskStepKind.Telephoned or DeskStepKind.SentElsewhere;

    static AnsweredWhen WhenOf(Instant asked, Instant? answered, Instant? limit, Instant now)
    {
        if (limit is not { } by)
            return answered is null ? AnsweredWhen.NotYet : AnsweredWhen.WithoutLimit;
        if ((answered ?? now) > by)
            return AnsweredWhen.TooLate;
        return answered is not { } at ? AnsweredWhen.NotYet : at - asked <= (by - asked) / 2 ? AnsweredWhen.FirstHalf : AnsweredWhen.SecondHalf;
    }
}

/// <summary>Against the time from which the patient goes elsewhere.</summary>
public enum AnsweredWhen
{
    FirstHalf,
    SecondHalf,

    /// <summary>After it, or not at all and it is over.</summary>
    TooLate,

    /// <summary>Nobody has, and there is time left.</summary>
    NotYet,

    WithoutLimit,
}
