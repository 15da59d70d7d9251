using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using NodaTime;

namespace EarHelp.Clinic.Tests.Desk;

public sealed class DeskOrderTests
{
    static readonly Instant Now = Instant.FromUtc(2026, 11, 26, 9, 0);

    static readonly Urgency Day = new("within a day", 2, Now + Duration.FromHours(20), Now + Duration.FromHours(10));

    static readonly Urgency Fortnight = new("in two weeks", 4, Now + Duration.FromDays(14), Now + Duration.FromDays(7));

    static readonly Urgency NoHurry = new("no hurry", 5, null, null);

    [Fact]
    public void Who_must_be_seen_first_stands_first_and_who_came_first_does_not()
    {
        ImmutableArray<KeptRequest> waiting =
        [
            Asked("first", NoHurry, Now - Duration.FromDays(3)), Asked("second", Fortnight, Now - Duration.FromDays(2)), Asked("third", Day, Now),
        ];

        Assert.Equal(["third", "second", "first"], Conversations(DeskOrder.Of(waiting, Now).Unanswered));
    }

    [Fact]
    public void Of_the_same_limit_the_more_urgent_level_stands_first_and_then_whose_patient_goes_elsewhere_sooner()
    {
        ImmutableArray<KeptRequest> waiting =
        [
            Asked("a", Day with { Rank = 3 }, Now), Asked("b", Day, Now), Asked("c", Day with { AnswerBy = Now }, Now),
        ];

        Assert.Equal(["c", "b", "a"], Conversations(DeskOrder.Of(waiting, Now).Unanswered));
    }

    [Theory]
    [InlineData(DeskStepKind.Accepted, true)]
    [InlineData(DeskStepKind.Telephoned, true)]
    [InlineData(DeskStepKind.SentElsewhere, true)]
    [InlineData(DeskStepKind.NotReached, false)]
    public void An_answer_takes_a_request_off_the_list_and_a_call_that_reached_nobody_does_not(DeskStepKind kind, bool isAnswered)
    {
        var asked = Asked("a", Fortnight, Now);
        var request = asked.Request.Stepped(Step(kind, Fortnight), "form 2", Now);

        var queue = DeskOrder.Of([asked with { Request = request }], Now);

        Assert.Equal(isAnswered, queue.Unanswered.IsEmpty);
        Assert.Equal(isAnswered, !queue.Answered.IsEmpty);
    }

    [Fact]
    public void A_request_that_became_more_urgent_after_its_answer_is_unanswered_again()
    {
        var request = Asked("a", Fortnight, Now).Request.Stepped(Step(DeskStepKind.Accepted, Fortnight), "form 2", Now);

        Assert.True(request.IsAnswered(Fortnight, Now));
        Assert.False(request.IsAnswered(Day, Now));
        Assert.False(request.IsAnswered(Fortnight with { SeenBy = Fortnight.SeenBy - Duration.Epsilon }, Now));
        Assert.True(request.IsAnswered(NoHurry, Now));
    }

    [Fact]
    public void An_offered_time_answers_until_it_runs_out_untaken()
    {
        var until = Now + Duration.FromHours(1);
        var time = new VisitTime(Now + Duration.FromDays(1), Now + Duration.FromDays(1) + Duration.FromMinutes(30));
        var offered = Asked("a", Fortnight, Now).Request.Holding(time, until, "form 2", Now) with { Steps = [Step(DeskStepKind.OfferedTime, Fortnight)] };

        Assert.True(offered.IsAnswered(Fortnight, until - Duration.Epsilon));
        Assert.False(offered.IsAnswered(Fortnight, until));
        Assert.True(offered.Confirmed("form 3", Now).IsAnswered(Fortnight, until));
    }

    static DeskStep Step(DeskStepKind kind, Urgency seen) => new(kind, "jo", Now, "", seen);

    static KeptRequest Asked(string conversation, Urgency urgency, Instant at) => new(VisitRequest.New(conversation, "form", urgency, at), ContactDetails.Empty);

    static IEnumerable<string> Conversations(ImmutableArray<KeptRequest> requests) => requests.Select(r => r.Request.Conversation);
}
