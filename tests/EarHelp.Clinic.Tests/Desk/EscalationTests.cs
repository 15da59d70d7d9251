using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Staff;
using NodaTime;

namespace EarHelp.Clinic.Tests.Desk;

public sealed class EscalationTests
{
    static readonly Instant Asked = Instant.FromUtc(2026, 11, 26, 9, 0);

    static readonly Urgency Day = new("within a day", 2, Asked + Duration.FromHours(24), Asked + Duration.FromHours(12));

    static readonly VisitRequest Request = VisitRequest.New("c", "form", Day, Asked);

    [Fact]
    public void Is_due_when_half_of_the_time_until_the_patient_goes_elsewhere_is_over()
    {
        var due = Asked + Duration.FromHours(6);

        Assert.False(Escalation.IsDue(Request, Day, due - Duration.Epsilon));
        Assert.True(Escalation.IsDue(Request, Day, due));
        Assert.False(Escalation.IsDue(Request, Day with { AnswerBy = null }, due));
    }

    [Fact]
    public void Is_done_once_and_again_when_the_request_has_become_more_urgent()
    {
        var due = Asked + Duration.FromHours(6);
        var escalated = Request.Stepped(new DeskStep(DeskStepKind.Escalated, "service", due, "", Day), "form 2", due);

        Assert.False(Escalation.IsDue(escalated, Day, due));
        Assert.True(Escalation.IsDue(escalated, Day with { Rank = 1 }, due));
        Assert.False(escalated.IsAnswered(Day, due));
    }

    [Fact]
    public void An_answered_request_escalates_to_nobody()
    {
        var due = Asked + Duration.FromHours(6);
        var answered = Request.Stepped(new DeskStep(DeskStepKind.Telephoned, "jo", due, "comes today", Day), "form 2", due);

        Assert.False(Escalation.IsDue(answered, Day, due));
    }

    [Fact]
    public void Whoever_is_on_duty_is_told_and_if_nobody_is_everybody_who_could_be()
    {
        var jo = Account("jo", StaffRole.Desk);
        var kim = Account("kim", StaffRole.Clinician);
        var author = Account("author", StaffRole.Author) with { IsOnDuty = true };

        Assert.Equal(["jo", "kim"], Escalation.OnDuty([jo, kim, author]).Select(a => a.Id));
        Assert.Equal(["kim"], Escalation.OnDuty([jo, kim with { IsOnDuty = true }, author]).Select(a => a.Id));
        Assert.Equal(["jo"], Escalation.OnDuty([jo, kim with { IsOnDuty = true, State = StaffState.Closed }]).Select(a => a.Id));
    }

    static StaffAccount Account(string id, StaffRole role) => new(id, 1, id, [role], StaffState.Open, "s");
}
