using System.Collections.Immutable;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Clinic.Visits;
using EarHelp.Clinic.Tests.Visits;
using EarHelp.Triage.Editions;
using Microsoft.Extensions.Time.Testing;
using NodaTime;

namespace EarHelp.Clinic.Tests.CheckIns;

/// <summary>Messages on days 1, 3 and 7 between 9 and 19 o'clock, with a moved clock.</summary>
public sealed class OutboxTests
{
    static readonly Edition Asking = SomeEdition.Served.Edition with
    {
        Clinic = SomeEdition.Served.Edition.Clinic with { CheckInDays = [1, 3, 7], MessagesFrom = new LocalTime(9, 0), MessagesTo = new LocalTime(19, 0) },
    };

    /// <summary>A Monday in winter, when the clinic's clock is that of UTC.</summary>
    static readonly Visit Seen = new("after", Asking.Id, Instant.FromUtc(2026, 11, 23, 15, 0), "R. Adair", [new SeenFinding("looked only", null)], null);

    readonly FakeTimeProvider _clock = new(new DateTimeOffset(2026, 11, 23, 16, 0, 0, TimeSpan.Zero));
    readonly CollectedPost _post = new();
    readonly NoRequests _requests = new();
    readonly OneFollowUp _kept = new(new FollowUp("after", 1, "mo@patient.example.org", "stop"));

    [Fact]
    public async Task One_message_is_sent_on_each_day_and_silence_brings_no_other()
    {
        for (var hour = 0; hour < 24 * 14; hour++, _clock.Advance(TimeSpan.FromHours(1)))
            await SendAsync();

        Assert.Equal(["day 1", "day 3", "day 7"], _post.Names);
        Assert.All(_kept.Kept!.Messages, m => Assert.Equal((MessageState.Accepted, 0), (m.State, m.Repeats)));
    }

    [Theory]
    [InlineData(8, 59, 0)]
    [InlineData(9, 0, 1)]
    [InlineData(18, 59, 1)]
    [InlineData(19, 0, 0)]
    public async Task Nobody_is_disturbed_in_the_quiet_hours(int hour, int minute, int sent)
    {
        _clock.SetUtcNow(new DateTimeOffset(2026, 11, 24, hour, minute, 0, TimeSpan.Zero));

        Assert.Equal(sent, await SendAsync());
    }

    [Fact]
    public async Task Who_stopped_or_answered_gets_no_message()
    {
        _clock.SetUtcNow(new DateTimeOffset(2026, 11, 24, 10, 0, 0, TimeSpan.Zero));
        var asked = _kept.Kept!;

        _kept.Kept = asked.Stopped();
        Assert.Equal(0, await SendAsync());
        _kept.Kept = asked.Replied(new CheckInReply(1, Instant.FromDateTimeOffset(_clock.GetUtcNow()), true));

        Assert.Equal(0, await SendAsync());
    }

    [Fact]
    public async Task A_server_that_is_away_gets_the_message_later_and_it_is_no_repeat()
    {
        _clock.SetUtcNow(new DateTimeOffset(2026, 11, 24, 10, 0, 0, TimeSpan.Zero));
        _post.Answer = Delivery.NotNow;
        Assert.Equal(0, await SendAsync());
        _post.Answer = Delivery.Accepted;
        Assert.Equal(0, await SendAsync());
        _clock.Advance(TimeSpan.FromMinutes(15));

        Assert.Equal(1, await SendAsync());
        Assert.Equal(0, Assert.Single(_kept.Kept!.Messages).Repeats);
    }

    [Fact]
    public async Task A_sender_that_was_cut_off_leads_to_one_repeat_under_the_same_name_and_it_is_counted()
    {
        _clock.SetUtcNow(new DateTimeOffset(2026, 11, 24, 10, 0, 0, TimeSpan.Zero));
        _post.Answer = Delivery.Unknown;
        await SendAsync();
        _post.Answer = Delivery.Accepted;
        _clock.Advance(TimeSpan.FromMinutes(14));
        Assert.Equal(0, await SendAsync());
        _clock.Advance(TimeSpan.FromMinutes(1));

        Assert.Equal(1, await SendAsync());
        Assert.Equal(["day 1", "day 1"], _post.Names);
        Assert.Equal((MessageState.Accepted, 1), (_kept.Kept!.Messages[0].State, _kept.Kept.Messages[0].Repeats));
    }

    [Fact]
    public async Task An_address_that_is_refused_is_not_tried_again_on_that_day()
    {
        _clock.SetUtcNow(new DateTimeOffset(2026, 11, 24, 10, 0, 0, TimeSpan.Zero));
        _post.Answer = Delivery.Refused;
        await SendAsync();
        _clock.Advance(TimeSpan.FromHours(1));
        await SendAsync();

        Assert.Single(_post.Names);
    }

    [Fact]
    public async Task A_corrected_plan_is_told_once_to_whoever_agreed_to_messages()
    {
        var corrected = Seen.Corrected(Seen.EditionId, Seen.At, "K. Ness", [new SeenFinding("hole", Triage.Answers.Ear.Left)], new Correction(Seen.At + Duration.FromMinutes(30), ""));

        Assert.Equal((1, 0), (await SendAsync(corrected), await SendAsync(corrected)));
        Assert.Equal(["plan 2"], _post.Names);
        _kept.Kept = _kept.Kept!.Stopped();
        Assert.Equal(0, await SendAsync(corrected.Corrected(Seen.EditionId, Seen.At, "K. Ness", Seen.Findings, corrected.Correction!)));
    }

    ValueTask<int> SendAsync(Visit? visit = null) => new Outbox(_kept, new OneVisit(visit ?? Seen), _requests, _post, () => "code", _clock).SendDueAsync(
        Asking,
        (due, _) => ValueTask.FromResult<OutgoingMessage?>(new OutgoingMessage(due.Message.Name, due.To, "A question for you", "-", new Uri("https://clinic.example.org/stop"))),
        CancellationToken.None);

    sealed class CollectedPost : IPost
    {
        public List<string> Names { get; } = [];

        public Delivery Answer { get; set; } = Delivery.Accepted;

        public ValueTask<Delivery> SendAsync(OutgoingMessage message, CancellationToken cancellation)
        {
            Names.Add(message.Name);
            return ValueTask.FromResult(Answer);
        }
    }

    sealed class OneFollowUp(FollowUp first) : IFollowUps
    {
        public FollowUp? Kept { get; set; } = first;

        public ValueTask<bool> PutAsync(FollowUp followUp, CancellationToken cancellation)
        {
            var isNext = followUp.Version == Kept!.Version + 1;
            Kept = isNext ? followUp : Kept;
            return ValueTask.FromResult(isNext);
        }

        public ValueTask<FollowUp?> FindAsync(string conversation, CancellationToken cancellation) => ValueTask.FromResult(Kept);

        public ValueTask<ImmutableArray<FollowUp>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult<ImmutableArray<FollowUp>>([Kept!]);
    }

    sealed class NoRequests : IRequestStore
    {
        public ValueTask<RequestPut> PutAsync(VisitRequest request, ContactDetails? contact, CancellationToken cancellation) => ValueTask.FromResult(RequestPut.Gone);

        public ValueTask<KeptRequest?> FindAsync(string conversation, CancellationToken cancellation) => ValueTask.FromResult<KeptRequest?>(null);

        public ValueTask<ImmutableArray<VisitTime>> TakenAsync(Instant now, string except, CancellationToken cancellation) => ValueTask.FromResult<ImmutableArray<VisitTime>>([]);

        public ValueTask<ImmutableArray<KeptRequest>> WaitingAsync(CancellationToken cancellation) => ValueTask.FromResult<ImmutableArray<KeptRequest>>([]);

        public ValueTask<int> SweepRequestsAsync(long changedBeforeUnixMilliseconds, CancellationToken cancellation) => ValueTask.FromResult(0);
    }

    sealed class OneVisit(Visit visit) : IVisitStore
    {
        public ValueTask<bool> CorrectAsync(Visit visit, CancellationToken cancellation) => ValueTask.FromResult(false);

        public ValueTask<bool> PutAsync(Visit visit, CancellationToken cancellation) => ValueTask.FromResult(false);

        public ValueTask<Visit?> FindAsync(string conversation, CancellationToken cancellation) => ValueTask.FromResult<Visit?>(visit);

        public ValueTask<ImmutableArray<Visit>> AllAsync(CancellationToken cancellation) => ValueTask.FromResult<ImmutableArray<Visit>>([visit]);

        public ValueTask<int> SweepVisitsAsync(long beforeUnixMilliseconds, CancellationToken cancellation) => ValueTask.FromResult(0);
    }
}
