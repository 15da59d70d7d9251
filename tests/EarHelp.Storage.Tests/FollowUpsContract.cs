using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Storage.Tests.Places;
using NodaTime;

namespace EarHelp.Storage.Tests;

public abstract class FollowUpsContract(Func<Task<StorePlace>> make) : StoreContract(make)
{
    const string Canary = "canary@patient.example.org";

    static readonly Instant Nine = Instant.FromUtc(2026, 11, 29, 9, 0);

    static readonly FollowUp First = new("after", 1, Canary, "stop");

    IFollowUps FollowUps => Opened.FollowUps;

    public override async Task InitializeAsync()
    {
        await base.InitializeAsync();
        await Opened.AppendAsync(SomeTurns.First("after", at: 1_000), [], default);
    }

    [Fact]
    public async Task Gives_messages_and_replies_back_as_they_were_after_closing_too()
    {
        Assert.True(await FollowUps.PutAsync(First, default));
        var claimed = First.Claimed("day 3", Nine);
        Assert.True(await FollowUps.PutAsync(claimed, default));
        Assert.True(await FollowUps.PutAsync(claimed.Replied(new CheckInReply(3, Nine, false)), default));

        await OpenAgainAsync();

        var found = (await FollowUps.FindAsync("after", default))!;
        Assert.Equal([new SentMessage("day 3", MessageState.Claimed, Nine, 0)], found.Messages.AsEnumerable());
        Assert.Equal([new CheckInReply(3, Nine, false)], found.Replies.AsEnumerable());
        Assert.Equal((3, Canary, "stop"), (found.Version, found.Email, found.StopCode));
        Assert.Single(await FollowUps.AllAsync(default));
        Assert.Null(await FollowUps.FindAsync("nobody", default));
    }

    [Fact]
    public async Task Of_ten_senders_at_the_same_moment_one_has_the_claim()
    {
        await FollowUps.PutAsync(First, default);

        var claims = await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => FollowUps.PutAsync(First.Claimed("day 1", Nine), default).AsTask()));

        Assert.Single(claims, c => c);
        Assert.Equal(2, (await FollowUps.FindAsync("after", default))!.Version);
    }

    [Fact]
    public async Task Keeps_nothing_for_a_conversation_that_is_not_there_and_erasing_it_leaves_nothing()
    {
        Assert.False(await FollowUps.PutAsync(First with { Conversation = "erased" }, default));
        await FollowUps.PutAsync(First, default);
        Assert.True(await Place.HoldsAsync(Canary));

        await Opened.EraseAsync("after", default);

        Assert.Empty(await FollowUps.AllAsync(default));
        Assert.False(await Place.HoldsAsync(Canary));
        Assert.False(await FollowUps.PutAsync(First.Claimed("day 1", Nine), default));
    }

    public sealed class InLiteDb() : FollowUpsContract(LiteAsync);

    public sealed class InPostgres() : FollowUpsContract(PostgresAsync);
}
