using System.Text;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Times;
using EarHelp.Conversation.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Storage.Postgres;
using EarHelp.Storage.Tests.Places;
using NodaTime;
using Npgsql;

namespace EarHelp.Storage.Tests;

public sealed class PostgresStoreTests : TurnStoreContract
{
    /// <summary>How long a test waits before it says that something did not come.</summary>
    static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    PostgresPlace _place = null!;
    IStore _store = null!;
    IStore? _otherNode;

    IStore OtherNode => _otherNode ??= _place.Open();

    public override async Task DisposeAsync()
    {
        if (_otherNode is not null)
            await _otherNode.DisposeAsync();
        await _store.DisposeAsync();
        await _place.DisposeAsync();
    }

    protected override async Task<ITurnStore> OpenAsync()
    {
        _place = await PostgresPlace.MakeAsync();
        return _store = _place.Open();
    }

    [Fact]
    public async Task Of_fifty_posts_of_one_turn_to_two_nodes_at_once_one_is_kept()
    {
        IStore[] nodes = [_store, OtherNode];

        var results = await Task.WhenAll(Enumerable.Range(0, 50)
            .Select(i => Task.Run(async () => await nodes[i % 2].AppendAsync(SomeTurns.First("a"), [], default))));

        Assert.Single(results, r => r is Appended.Kept);
        Assert.Equal(49, results.Count(r => r is Appended.Repeated));
    }

    [Fact]
    public async Task Of_two_nodes_that_append_to_the_same_conversations_each_number_belongs_to_one()
    {
        var last = SomeTurns.First("a");
        await Store.AppendAsync(last, [], default);
        for (var number = 2; number < 30; number++)
        {
            TurnRecord[] two = [SomeTurns.After(last, $"here {number}"), SomeTurns.After(last, $"there {number}")];

            var results = await Task.WhenAll(_store.AppendAsync(two[0], [], default).AsTask(), OtherNode.AppendAsync(two[1], [], default).AsTask());

            Assert.Single(results, r => r is Appended.Stale);
            last = two[Array.FindIndex(results, r => r is Appended.Kept)];
        }

        Assert.Equal(29, (await Store.LoadAsync("a", default)).Length);
    }

    [Fact]
    public async Task What_another_node_added_or_erased_is_noticed()
    {
        var first = SomeTurns.First("a");
        await Store.AppendAsync(first, [], default);
        Assert.True(await OtherNode.IsLastAsync("a", 1, default));

        await Store.AppendAsync(SomeTurns.After(first), [], default);
        Assert.False(await OtherNode.IsLastAsync("a", 1, default));

        await Store.EraseAsync("a", default);
        Assert.False(await OtherNode.IsLastAsync("a", 2, default));
        Assert.IsType<Appended.Stale>(await OtherNode.AppendAsync(SomeTurns.After(SomeTurns.After(first)), [], default));
    }

    [Fact]
    public async Task A_node_hears_what_another_erased_and_added_to_the_ledger()
    {
        using var ending = new CancellationTokenSource(Patience);
        await Store.AppendAsync(SomeTurns.First("a"), [new ConversationKey("key", false, null)], default);
        await using var heard = OtherNode.ListenAsync(ending.Token).GetAsyncEnumerator();
        await heard.MoveNextAsync();
        Assert.IsType<ChangedElsewhere.Anything>(heard.Current);
        Assert.Equal("a", await OtherNode.FindByKeyAsync("key", 0, default));

        await Store.EraseAsync("a", default);
        await heard.MoveNextAsync();
        Assert.Equal(new ChangedElsewhere.Erased("a"), heard.Current);
        Assert.Null(await OtherNode.FindByKeyAsync("key", 0, default));
        await _store.AppendAsync(ChainedRecord.After(null, Encoding.UTF8.GetBytes("one")), default);
        await heard.MoveNextAsync();

        Assert.IsType<ChangedElsewhere.Ledger>(heard.Current);
        await _store.Closings.PutAsync(new KeptClosing(Instant.FromUnixTimeMilliseconds(1), new LocalDate(2026, 11, 30), null), default);
        await heard.MoveNextAsync();
        Assert.IsType<ChangedElsewhere.Closings>(heard.Current);
        await _store.AppendAsync(SomeTurns.First("b"), [], default);
        await _store.Requests.PutAsync(VisitRequest.New("b", "form", new Urgency("within a day", 2, null, null), Instant.FromUnixTimeMilliseconds(1)), null, default);
        await heard.MoveNextAsync();
        Assert.IsType<ChangedElsewhere.Requests>(heard.Current);
        await ending.CancelAsync();
    }

    [Fact]
    public async Task What_was_added_without_a_message_is_noticed()
    {
        using var ending = new CancellationTokenSource(Patience);
        await using var heard = OtherNode.ListenAsync(ending.Token).GetAsyncEnumerator();
        await heard.MoveNextAsync();

        await PostgresServer.DoAsync(_place.Address, "insert into closings (set_at, last_day) values (1, '2026-11-30')");
        await heard.MoveNextAsync();

        Assert.IsType<ChangedElsewhere.Closings>(heard.Current);
        await ending.CancelAsync();
    }

    [Fact]
    public async Task Of_two_nodes_one_at_a_time_has_a_piece_of_work()
    {
        await using (var first = await _store.ClaimAsync("desk", default))
        {
            Assert.NotNull(first);
            Assert.Null(await OtherNode.ClaimAsync("desk", default));
            await using var another = await OtherNode.ClaimAsync("another", default);
            Assert.NotNull(another);
        }

        await using var later = await OtherNode.ClaimAsync("desk", default);
        Assert.NotNull(later);
    }

    [Fact]
    public async Task The_database_itself_refuses_two_holders_of_one_time()
    {
        var now = Instant.FromUtc(2026, 11, 26, 12, 0);
        var urgency = new Urgency("within a day", 2, null, null);
        foreach (var person in (string[])["a", "b"])
        {
            await Store.AppendAsync(SomeTurns.First(person, finished: true), [], default);
            await _store.Requests.PutAsync(VisitRequest.New(person, "form", urgency, now), null, default);
        }

        var holding = VisitRequest.New("a", "form", urgency, now).Holding(new VisitTime(now, now + Duration.FromMinutes(30)), now + Duration.FromMinutes(15), "hold", now);
        Assert.Equal(RequestPut.Kept, await _store.Requests.PutAsync(holding, null, default));

        var refused = await Assert.ThrowsAsync<PostgresException>(() => PostgresServer.DoAsync(
            _place.Address, "update requests set times = (select times from requests where conversation = 'a') where conversation = 'b'"));

        Assert.Equal(PostgresErrorCodes.ExclusionViolation, refused.SqlState);
    }

    [Fact]
    public async Task Steps_of_the_tables_that_were_done_are_skipped_and_one_that_was_changed_is_named()
    {
        await using var source = NpgsqlDataSource.Create(_place.Address);
        await Migrating.RunAsync(source, Migration.All, default);
        Migration broken = new("9998-broken", "create table half (id integer); select no_such_function()");
        await Assert.ThrowsAsync<PostgresException>(() => Migrating.RunAsync(source, [.. Migration.All, broken], default));
        Assert.Equal(DBNull.Value, await _place.FirstAsync("select to_regclass('half')::text"));

        await Migrating.RunAsync(source, [.. Migration.All, broken with { Sql = "create table half (id integer)" }], default);
        Assert.Equal(Migration.All.Length + 1L, await _place.FirstAsync("select count(*) from migrations"));

        var refused = await Assert.ThrowsAsync<StoreFailedException>(() => Migrating.RunAsync(source, [Migration.All[0] with { Sql = "select 1" }], default));
        Assert.Contains("\"0001-conversations\"", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Host=127.0.0.1;Port=1;Database=x;Username=x", "no server answers")]
    [InlineData("Host=127.0.0.1;Username=x", "names no host or no database")]
    [InlineData("Hostess=127.0.0.1", "cannot be read")]
    [InlineData("nothing", "cannot be read")]
    public void A_database_that_cannot_be_used_is_told_with_the_setting_and_what_to_do(string named, string said)
    {
        var refused = Assert.Throws<StoreFailedException>(() => StoreOpening.Open("unused", named, new StoreOptions()));

        Assert.Contains("--store", refused.Message, StringComparison.Ordinal);
        Assert.Contains(said, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_database_or_a_schema_that_is_not_there_is_told_as_such()
    {
        var other = new NpgsqlConnectionStringBuilder(_place.Address) { Database = "nowhere" }.ConnectionString;
        Assert.Contains("There is no database of the name", Assert.Throws<StoreFailedException>(() => PostgresStore.Open(other, new StoreOptions())).Message, StringComparison.Ordinal);

        other = new NpgsqlConnectionStringBuilder(_place.Address) { SearchPath = "nowhere" }.ConnectionString;
        Assert.Contains("Search Path", Assert.Throws<StoreFailedException>(() => PostgresStore.Open(other, new StoreOptions())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_row_is_named_and_never_given_out()
    {
        await Store.AppendAsync(SomeTurns.First("a"), [], default);
        await PostgresServer.DoAsync(_place.Address, "update turns set body = 'changed later'");

        var failure = await Assert.ThrowsAsync<StoreFailedException>(async () => await Store.LoadAsync("a", default));

        Assert.Contains("Turn 1 of conversation a", failure.Message, StringComparison.Ordinal);
    }
}
