using EarHelp.Conversation.Keeping;

namespace EarHelp.Storage.Tests;

/// <summary>What every store of turns must do.</summary>
public abstract class TurnStoreContract : IAsyncLifetime
{
    protected ITurnStore Store { get; private set; } = null!;

    public async Task InitializeAsync() => Store = await OpenAsync();

    public abstract Task DisposeAsync();

    protected abstract Task<ITurnStore> OpenAsync();

    [Fact]
    public async Task Keeps_turns_in_order_and_gives_them_back_as_they_were()
    {
        var first = SomeTurns.First("a");
        var second = SomeTurns.After(first);

        await Store.AppendAsync(first, [], default);
        await Store.AppendAsync(second, [], default);
        var loaded = await Store.LoadAsync("a", default);

        Assert.Equal([first.Hash, second.Hash], loaded.Select(t => t.Hash));
        Assert.True(loaded[0].IsIntact(string.Empty) && loaded[1].IsIntact(first.Hash));
    }

    [Fact]
    public async Task Has_nothing_of_a_conversation_that_never_was() => Assert.Empty(await Store.LoadAsync("nobody", default));

    [Fact]
    public async Task A_repeated_turn_id_gives_the_kept_turn_and_changes_nothing()
    {
        var first = SomeTurns.First("a");
        await Store.AppendAsync(first, [], default);

        var again = await Store.AppendAsync(SomeTurns.First("a", text: "other"), [], default);

        Assert.Equal(first.Hash, Assert.IsType<Appended.Repeated>(again).Earlier.Hash);
        Assert.Single(await Store.LoadAsync("a", default));
    }

    [Fact]
    public async Task A_turn_whose_number_is_taken_or_too_high_is_stale()
    {
        var first = SomeTurns.First("a");
        await Store.AppendAsync(first, [], default);

        Assert.IsType<Appended.Stale>(await Store.AppendAsync(SomeTurns.First("a", "another"), [], default));
        Assert.IsType<Appended.Stale>(await Store.AppendAsync(SomeTurns.After(SomeTurns.After(first)), [], default));
    }

    [Fact]
    public async Task Fifty_posts_of_one_turn_at_once_have_one_effect()
    {
        var results = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Store.AppendAsync(SomeTurns.First("a"), [], default).AsTask()));

        Assert.Single(results, r => r is Appended.Kept);
        Assert.Equal(49, results.Count(r => r is Appended.Repeated));
        Assert.Single(await Store.LoadAsync("a", default));
    }

    [Fact]
    public async Task A_thousand_turns_from_many_at_once_are_all_there()
    {
        await Task.WhenAll(Enumerable.Range(0, 64).Select(async c =>
        {
            var turn = SomeTurns.First($"c{c}");
            for (var i = 0; i < 16; i++)
            {
                Assert.IsType<Appended.Kept>(await Store.AppendAsync(turn, [], default));
                turn = SomeTurns.After(turn);
            }
        }));

        for (var c = 0; c < 64; c++)
            Assert.Equal(16, (await Store.LoadAsync($"c{c}", default)).Length);
    }

    [Fact]
    public async Task A_key_opens_its_conversation_until_it_expires()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("forever", false, null), new ConversationKey("short", true, 1_000)], default);

        Assert.Equal("a", await Store.FindByKeyAsync("forever", long.MaxValue - 1, default));
        Assert.Equal("a", await Store.FindByKeyAsync("short", 999, default));
        Assert.Null(await Store.FindByKeyAsync("short", 1_000, default));
        Assert.Null(await Store.FindByKeyAsync("wrong", 0, default));
    }

    [Fact]
    public async Task A_key_that_opens_a_conversation_is_never_given_to_another()
    {
        await Task.WhenAll(((string[])["a", "b"]).Select(c => Store.AppendAsync(SomeTurns.First(c), [new ConversationKey("shared", false, null)], default).AsTask()));
        var first = await Store.FindByKeyAsync("shared", 0, default);

        await Store.AppendAsync(SomeTurns.First("c"), [new ConversationKey("shared", false, null), new ConversationKey("its own", false, null)], default);

        Assert.True(first is "a" or "b");
        Assert.Equal(first, await Store.FindByKeyAsync("shared", 0, default));
        Assert.Equal("c", await Store.FindByKeyAsync("its own", 0, default));
    }

    [Fact]
    public async Task A_one_time_key_is_taken_by_exactly_one_of_fifty()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("once", true, null)], default);

        var taken = await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Store.SpendKeyAsync("once", default).AsTask()));

        Assert.Single(taken, t => t);
    }

    [Fact]
    public async Task An_erased_conversation_is_gone_with_its_keys_and_others_stay()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("key a", false, null)], default);
        await Store.AppendAsync(SomeTurns.First("b"), [new ConversationKey("key b", false, null)], default);

        Assert.True(await Store.EraseAsync("a", default));

        Assert.Empty(await Store.LoadAsync("a", default));
        Assert.Null(await Store.FindByKeyAsync("key a", 0, default));
        Assert.Single(await Store.LoadAsync("b", default));
        Assert.Equal("b", await Store.FindByKeyAsync("key b", 0, default));
        Assert.False(await Store.EraseAsync("a", default));
    }

    [Fact]
    public async Task A_sweep_takes_the_unfinished_ones_whose_last_turn_is_older()
    {
        await Store.AppendAsync(SomeTurns.First("old", at: 99), [], default);
        await Store.AppendAsync(SomeTurns.First("new", at: 100), [], default);
        await Store.AppendAsync(SomeTurns.First("finished", at: 1, finished: true), [], default);

        Assert.Equal(1, await Store.SweepUnfinishedAsync(100, default));

        Assert.Empty(await Store.LoadAsync("old", default));
        Assert.Single(await Store.LoadAsync("new", default));
        Assert.Single(await Store.LoadAsync("finished", default));
    }

    [Fact]
    public async Task A_sweep_leaves_a_conversation_whose_last_turn_is_new_however_old_the_ones_before_are()
    {
        var first = SomeTurns.First("a", at: 99);
        await Store.AppendAsync(first, [], default);
        await Store.AppendAsync(SomeTurns.After(first), [], default);

        Assert.Equal(0, await Store.SweepUnfinishedAsync(100, default));
        Assert.Equal(1, await Store.SweepUnfinishedAsync(101, default));
    }

    [Fact]
    public async Task Turns_are_taken_while_many_are_swept_and_a_conversation_that_goes_on_stays()
    {
        var firsts = Enumerable.Range(0, 200).Select(i => SomeTurns.First($"c{i}", at: 99)).ToList();
        foreach (var first in firsts)
            await Store.AppendAsync(first, [new ConversationKey($"key {first.Conversation}", false, null)], default);

        var sweeping = Task.Run(async () => await Store.SweepUnfinishedAsync(100, default));
        var goingOn = await Task.WhenAll(firsts.Where((_, i) => i % 3 == 0).Reverse()
            .Select(async f => (f.Conversation, Taken: await Store.AppendAsync(SomeTurns.After(f), [], default) is Appended.Kept)));

        var stay = goingOn.Where(g => g.Taken).Select(g => g.Conversation).ToHashSet();
        Assert.Equal(firsts.Count - stay.Count, await sweeping);
        foreach (var first in firsts)
        {
            Assert.Equal(stay.Contains(first.Conversation) ? 2 : 0, (await Store.LoadAsync(first.Conversation, default)).Length);
            Assert.Equal(stay.Contains(first.Conversation) ? first.Conversation : null, await Store.FindByKeyAsync($"key {first.Conversation}", 0, default));
        }
    }

    [Fact]
    public async Task A_finished_conversation_that_is_opened_again_is_swept_as_an_unfinished_one()
    {
        var first = SomeTurns.First("a", at: 1, finished: true);
        await Store.AppendAsync(first, [], default);
        Assert.Equal(0, await Store.SweepUnfinishedAsync(100, default));

        await Store.AppendAsync(SomeTurns.After(first), [], default);

        Assert.Equal(1, await Store.SweepUnfinishedAsync(100, default));
    }

    [Fact]
    public async Task A_key_that_was_used_before_opens_nothing_once_it_is_spent_or_its_conversation_erased()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("spent", true, null), new ConversationKey("kept", false, null)], default);
        Assert.Equal("a", await Store.FindByKeyAsync("spent", 0, default));
        Assert.Equal("a", await Store.FindByKeyAsync("kept", 0, default));

        await Store.SpendKeyAsync("spent", default);
        Assert.Null(await Store.FindByKeyAsync("spent", 0, default));

        await Store.EraseAsync("a", default);
        Assert.Null(await Store.FindByKeyAsync("kept", 0, default));
    }
}
