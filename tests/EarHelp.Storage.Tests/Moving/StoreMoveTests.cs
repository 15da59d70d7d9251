using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Moving;
using EarHelp.Storage.Records;
using EarHelp.Storage.Tests.Places;
using EarHelp.Storage.Writing;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Tests.Moving;

public sealed class StoreMoveTests
{
    [Theory]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(false, false)]
    public async Task Everything_of_every_port_arrives_and_the_target_goes_on_from_there(bool isFromPostgres, bool isToPostgres)
    {
        await using var from = await MakeAsync(isFromPostgres);
        await using var to = await MakeAsync(isToPostgres);
        await using var source = from.Open();
        await FilledStore.FillAsync(source);
        var before = await ReadStore.AllAsync(source);
        IStore target = to.Open();

        var counted = await StoreMove.RunAsync(source, target, default);

        Assert.Equal(FilledStore.Conversations * 2, counted.Single(p => p.Name == "turns").Count);
        Assert.All(counted, p => Assert.True(p.Count > 0, p.Name));
        Assert.Equal(before, await ReadStore.AllAsync(target));
        await target.DisposeAsync();
        await using var again = to.Open();
        Assert.Equal(before, await ReadStore.AllAsync(again));
        Assert.Equal(before, await ReadStore.AllAsync(source));
        await GoesOnAsync(again);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_target_that_holds_something_is_refused_and_stays_as_it_was(bool isToPostgres)
    {
        await using var from = new LitePlace();
        await using var to = await MakeAsync(isToPostgres);
        await using var source = from.Open();
        await FilledStore.FillAsync(source);
        await using var target = to.Open();
        await target.KeepAsync("another edition", "sources"u8.ToArray(), default);

        var refused = await Assert.ThrowsAsync<StoreFailedException>(() => StoreMove.RunAsync(source, target, default));

        Assert.Contains("holds something already", refused.Message, StringComparison.Ordinal);
        Assert.Empty(await target.ConversationsAsync(default));
        Assert.NotNull(await target.FindAsync("another edition", default));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_move_that_is_cut_off_leaves_nothing_and_is_made_again(bool isToPostgres)
    {
        await using var from = new LitePlace();
        await using var to = await MakeAsync(isToPostgres);
        await using var source = from.Open();
        await FilledStore.FillAsync(source);
        await using (var target = to.Open())
        {
            var cut = StoreMove.Whole(source).ReadAsync(default).Take(700).Concat(Broken());
            await Assert.ThrowsAsync<StoreFailedException>(() => StoreMove.Whole(target).FillAsync(cut, new Tally(), default));
            Assert.Empty(await target.ConversationsAsync(default));
        }

        await using var again = to.Open();
        await StoreMove.RunAsync(source, again, default);

        Assert.Equal(await ReadStore.AllAsync(source), await ReadStore.AllAsync(again));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_arrives_changed_or_not_at_all_is_found_and_nothing_is_kept(bool isToPostgres)
    {
        await using var to = await MakeAsync(isToPostgres);
        await using var target = to.Open();
        var edition = new Row(Part.Editions, ["edition", "sources"u8.ToArray()]);
        var sent = new Tally();
        sent.Add(edition);
        sent.Add(new Row(Part.Editions, ["lost", "sources"u8.ToArray()]));

        var refused = await Assert.ThrowsAsync<StoreFailedException>(
            () => StoreMove.Whole(target).FillAsync(new[] { edition }.ToAsyncEnumerable(), sent, default));

        Assert.Contains("of editions 1 rows", refused.Message, StringComparison.Ordinal);
        Assert.Null(await target.FindAsync("edition", default));
    }

    [Fact]
    public async Task A_source_with_a_damaged_ledger_is_refused()
    {
        await using var from = new LitePlace();
        await using (var filled = from.Open())
            await FilledStore.FillAsync(filled);
        await from.TamperAsync(ChainDocuments.Ledger, 2, "{\"a\":2}"u8.ToArray());
        await using var to = new LitePlace();
        await using var source = from.Open();
        await using var target = to.Open();

        var refused = await Assert.ThrowsAsync<StoreFailedException>(() => StoreMove.RunAsync(source, target, default));

        Assert.StartsWith("Entry 2 of the ledger is damaged", refused.Message, StringComparison.Ordinal);
        Assert.Empty(await target.ConversationsAsync(default));
    }

    [Fact]
    public async Task A_source_that_holds_nothing_is_most_likely_the_wrong_one()
    {
        await using var place = new LitePlace();
        await using var other = new LitePlace();
        await using var source = place.Open();
        await using var target = other.Open();

        var refused = await Assert.ThrowsAsync<StoreFailedException>(() => StoreMove.RunAsync(source, target, default));

        Assert.Contains("holds nothing", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_database_that_a_service_listens_to_is_not_moved_until_it_stops()
    {
        await using var place = await PostgresPlace.MakeAsync();
        await using var other = new LitePlace();
        await using var service = place.Open();
        await FilledStore.FillAsync(service);
        using var stopping = new CancellationTokenSource();
        var isListening = new TaskCompletionSource();
        var listening = Task.Run(async () =>
        {
            await foreach (var _ in service.ListenAsync(stopping.Token))
                isListening.TrySetResult();
        });
        await isListening.Task;
        await using var source = place.Open();
        await using var target = other.Open();

        var refused = await Assert.ThrowsAsync<StoreFailedException>(() => StoreMove.RunAsync(source, target, default));
        await stopping.CancelAsync();
        await listening;
        await StoreMove.RunAsync(source, target, default);

        Assert.Contains("running service uses the database", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_table_and_every_collection_is_moved_or_worked_out_from_what_is()
    {
        await using var place = await PostgresPlace.MakeAsync();
        await using (place.Open())
        {
        }

        var schema = new NpgsqlConnectionStringBuilder(place.Address).SearchPath;
        var tables = (string)(await place.FirstAsync($"select string_agg(table_name, ' ') from information_schema.tables where table_schema = '{schema}'"))!;

        Assert.Equal(Part.All.Select(p => p.Name).Order(), tables.Split(' ').Except(["migrations", "conversations"]).Order());
        Assert.Equal(
            Part.All.Select(p => LiteShape.Of(p).Collection).Order(),
            StoreFile.Collections.Except([CardDocuments.Collection, RequestDocuments.Contacts]).Order());
    }

    static async Task GoesOnAsync(IStore store)
    {
        var last = (await store.LoadAsync("c1", default))[^1];
        Assert.IsType<Appended.Kept>(await store.AppendAsync(SomeTurns.After(last), [], default));
        Assert.IsType<Appended.Repeated>(await store.AppendAsync(last, [], default));

        // What one person booked is still theirs, and what another held until long ago is not in the way.
        var now = Instant.FromUtc(2020, 11, 26, 10, 0);
        var booked = (await store.Requests.FindAsync("c2", default))!.Request.Booked!.Value;
        var free = new VisitTime(booked.End, booked.End + Duration.FromMinutes(20));
        var asked = VisitRequest.New("c8", "f", (await store.Requests.FindAsync("c2", default))!.Request.Urgency, now);
        Assert.Equal(RequestPut.TimeTaken, await store.Requests.PutAsync(asked with { Booked = booked }, null, default));
        Assert.Equal(RequestPut.Kept, await store.Requests.PutAsync(asked with { Booked = free }, null, default));
    }

    static async Task<StorePlace> MakeAsync(bool isPostgres) => isPostgres ? await PostgresPlace.MakeAsync() : new LitePlace();

    static async IAsyncEnumerable<Row> Broken()
    {
        await Task.Yield();
        yield return new Row(Part.Editions, ["edition", "sources"u8.ToArray()]);
        throw new StoreFailedException("The source is gone.");
    }
}
