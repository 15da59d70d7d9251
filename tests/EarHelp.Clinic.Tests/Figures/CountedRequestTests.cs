using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Figures;
using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Clinic.Tests.Figures;

public sealed class CountedRequestTests
{
    static readonly Instant Asked = Instant.FromUtc(2026, 11, 26, 9, 0);
    static readonly Instant Limit = Asked + Duration.FromHours(4);

    [Theory]
    [InlineData(0, AnsweredWhen.FirstHalf)]
    [InlineData(120, AnsweredWhen.FirstHalf)]
    [InlineData(121, AnsweredWhen.SecondHalf)]
    [InlineData(240, AnsweredWhen.SecondHalf)]
    [InlineData(241, AnsweredWhen.TooLate)]
    public void An_answer_counts_by_how_much_of_its_limit_was_used(int minutes, AnsweredWhen when)
    {
        var answered = Request(Limit).Stepped(Step(DeskStepKind.Telephoned, minutes), "form 2", Asked);

        Assert.Equal(when, CountedRequest.Of(answered, Limit + Duration.FromDays(1)).When);
    }

    [Theory]
    [InlineData(240, AnsweredWhen.NotYet)]
    [InlineData(241, AnsweredWhen.TooLate)]
    public void Without_an_answer_it_is_too_late_once_the_limit_has_passed_however_often_it_was_tried(int minutes, AnsweredWhen when)
    {
        var tried = Request(Limit).Stepped(Step(DeskStepKind.NotReached, 10), "form 2", Asked).Stepped(Step(DeskStepKind.Escalated, 120), "form 3", Asked);

        Assert.Equal(when, CountedRequest.Of(tried, Asked + Duration.FromMinutes(minutes)).When);
    }

    [Fact]
    public void Without_a_limit_nothing_is_too_late()
    {
        Assert.Equal(AnsweredWhen.NotYet, CountedRequest.Of(Request(null), Asked + Duration.FromDays(30)).When);
        Assert.Equal(AnsweredWhen.WithoutLimit, CountedRequest.Of(Request(null).Stepped(Step(DeskStepKind.Accepted, 9000, null), "form 2", Asked), Asked).When);
    }

    static VisitRequest Request(Instant? limit) => VisitRequest.New("c1", "form 1", Urgency(limit), Asked);

    static Urgency Urgency(Instant? limit) => new("within a day", 2, limit, limit);

    static DeskStep Step(DeskStepKind kind, int minutes) => Step(kind, minutes, Limit);

    static DeskStep Step(DeskStepKind kind, int minutes, Instant? limit) => new(kind, "a1", Asked + Duration.FromMinutes(minutes), "", Urgency(limit));
}
