using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Visits;
using EarHelp.Web.Pages;
using NodaTime;

namespace EarHelp.Web.CheckIns;

/// <summary>What staff read of a visit's check-ins: what was answered on which day, and where nobody answered.</summary>
static class CheckInStatus
{
    /// <param name="followUp">Null: the patient is not asked.</param>
    /// <param name="toldAt">When the questions led to something last, or null.</param>
    internal static ImmutableArray<string> Of(Words words, Visit visit, FollowUp? followUp, Instant? toldAt, Instant now)
    {
        var days = CheckIn.After(words.Edition, visit);
        if (followUp is null || days.IsEmpty)
            return [words["check-in staff none"]];
        var way = followUp switch { { Email: "" } => "check-in staff waits", { IsStopped: true } => "check-in staff stopped", _ => "check-in staff asked" };
        var repeats = followUp.Messages.Sum(m => m.Repeats);
        ImmutableArray<string> twice = repeats > 0 ? [words.Letter.Text("check-in staff repeated", ("number", repeats.ToString(CultureInfo.InvariantCulture)))] : [];
        return [words[way], .. twice, .. days.Where(d => d.From <= now).Select(d => words.Letter.Text(KeyOf(followUp, d, toldAt, now), ("number", d.Day.ToString(CultureInfo.InvariantCulture))))];
    }

    static string KeyOf(FollowUp followUp, CheckIn day, Instant? toldAt, Instant now) => followUp.ReplyOf(day.Day) switch
    {
        { IsWell: true } => "check-in staff well",
        { IsWell: false } reply => followUp.Replies[^1] == reply && Worsening.IsLeft(followUp, toldAt) ? "check-in staff left" : "check-in staff not well",
        _ when !day.IsOpen(now) => "check-in staff silent",
        _ => followUp.MessageOf(day.Message.Name)?.State == MessageState.Refused ? "check-in staff refused" : "check-in staff open",
    };
}
