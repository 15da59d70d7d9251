using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Clinic.Tests.Desk;

public sealed class JudgingTests
{
    static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    static readonly Instant Now = Instant.FromUtc(2026, 11, 26, 9, 0);

    static readonly Level Day = Of(2, "within a day", Period.FromHours(24));

    static readonly Level Fortnight = Of(4, "in two weeks", Period.FromWeeks(2));

    static readonly Level NoHurry = Of(5, "no hurry", null);

    static readonly Urgency Waiting = new(Fortnight.Id, 4, Now + Duration.FromDays(10), Now + Duration.FromDays(5));

    [Theory]
    [InlineData(StaffRole.Desk, true, false)]
    [InlineData(StaffRole.Clinician, true, true)]
    [InlineData(StaffRole.Administrator, false, false)]
    public void The_desk_may_only_raise_and_a_clinician_may_do_both(StaffRole role, bool mayRaise, bool mayLower)
    {
        var account = new StaffAccount("jo", 1, "Jo", [role], StaffState.Open, "s");

        Assert.Equal(mayRaise, Judging.IsAllowed(account, Waiting, Day));
        Assert.Equal(mayLower, Judging.IsAllowed(account, Waiting, NoHurry));
        Assert.False(Judging.IsAllowed(account, Waiting, Fortnight));
        Assert.False(Judging.IsAllowed(account with { State = StaffState.Closed }, Waiting, Day));
    }

    [Fact]
    public void The_limit_of_the_level_runs_from_now_and_half_of_it_is_for_the_next_place()
    {
        var judged = Judging.Of(Day, Waiting, "fever", "jo", Now, London);

        Assert.Equal(new Judgement(new Urgency("within a day", 2, Now + Duration.FromHours(24), Now + Duration.FromHours(12)), "fever", "jo", Now), judged);
        Assert.Equal(new Urgency("no hurry", 5, null, null), Judging.Of(NoHurry, Waiting, "seen", "jo", Now, London).Urgency);
    }

    [Fact]
    public void Raising_never_moves_a_limit_later()
    {
        var soon = Waiting with { SeenBy = Now + Duration.FromHours(1) };

        Assert.Equal(soon.SeenBy, Judging.Of(Day, soon, "fever", "jo", Now, London).Urgency.SeenBy);
    }

    [Fact]
    public void What_the_patient_was_told_before_a_judgement_gives_way_to_it_and_what_is_told_after_it_may_only_raise()
    {
        var judged = VisitRequest.New("c", "form", Waiting, Now).JudgedAs(Judging.Of(NoHurry, Waiting, "seen", "jo", Now, London), "form 2", Now);

        Assert.Equal("no hurry", judged.UrgencyAfter([Told(Waiting, Now - Duration.FromMinutes(1))]).Level);
        Assert.Equal(Waiting, judged.UrgencyAfter([Told(Waiting, Now + Duration.FromMinutes(1))]));
    }

    static Level Of(int rank, string id, Period? within) => new(rank, id, within, null, new SourceSpot("dialogs/ear.md", 1, 1));

    static OutcomeTold Told(Urgency urgency, Instant at) =>
        new(urgency.Level, urgency.Rank, null, urgency.SeenBy, urgency.AnswerBy, at, false, [], false, null, null, [], [], [], [], [], false);
}
