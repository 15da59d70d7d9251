using System.Collections.Concurrent;
using System.Globalization;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Visits;
using Xunit.Abstractions;

namespace EarHelp.Web.Tests.Faults;

/// <summary>Many conversations that are open at once and go on whatever happens; some people use two tabs.</summary>
sealed class Crowd : IAsyncDisposable
{
    const int TwoTabsEvery = 8;

    readonly HttpClient _way;
    readonly CancellationTokenSource _ending = new();
    readonly ConcurrentQueue<Person> _people;
    readonly int _onTheirWay;
    readonly ITestOutputHelper _output;
    readonly Func<string> _served;
    readonly long _from = TimeProvider.System.GetTimestamp();
    Task _talking = Task.CompletedTask;
    int _steps;
    int _twoTabs;

    /// <param name="served">What the services say, told if nobody comes further.</param>
    public Crowd(Uri address, int conversations, int onTheirWay, ITestOutputHelper output, Func<string> served)
    {
        (_output, _served) = (output, served);
        _way = Ways.NewClient(address);
        _onTheirWay = onTheirWay;
        _people = new(Enumerable.Range(0, conversations).Select(_ => NewPerson()));
    }

    /// <summary>What they were told was kept.</summary>
    public Acknowledged Told { get; } = new();

    /// <summary>How often a question was answered in two tabs at once.</summary>
    public int TwoTabs => _twoTabs;

    public Person NewPerson() => new(_way, Told, Asking.SlowlyDuller);

    /// <summary>Begins all of the conversations, and then goes on with one after the other until it is ended.</summary>
    public async Task BeginAsync()
    {
        await Parallel.ForEachAsync(_people, new ParallelOptions { MaxDegreeOfParallelism = _onTheirWay }, async (person, _) => await person.BeginAsync());
        Tell("begun");
        _talking = Task.WhenAll(Enumerable.Range(0, _onTheirWay).Select(_ => Task.Run(TalkAsync)));
    }

    /// <summary>Waits until more forms were acknowledged.</summary>
    /// <param name="after">What has happened before.</param>
    public async Task MoreAsync(string after)
    {
        var more = Told.MoreAsync(FaultLength.Between, _served);
        if (await Task.WhenAny(more, _talking) == _talking)
            await _talking;
        await more;
        Tell(after);
    }

    /// <summary>Waits until forms were refused: the fault is felt.</summary>
    public Task RefusedAsync() => Told.RefusedAsync(4);

    /// <summary>Everybody gets the answer to what they have sent, and sends nothing more.</summary>
    public async Task EndAsync()
    {
        await _ending.CancelAsync();
        await _talking;
    }

    public async ValueTask DisposeAsync()
    {
        await _ending.CancelAsync();
        _way.CancelPendingRequests();
        _way.Dispose();
        _ending.Dispose();
    }

    void Tell(string after) => _output.WriteLine(string.Create(
        CultureInfo.InvariantCulture, $"{TimeProvider.System.GetElapsedTime(_from).TotalSeconds,6:0.0} s  {after}: {Told.Forms.Count} forms acknowledged, {Told.Refused} times not"));

    async Task TalkAsync()
    {
        while (!_ending.IsCancellationRequested && _people.TryDequeue(out var person))
        {
            if (Interlocked.Increment(ref _steps) % TwoTabsEvery == 0)
            {
                Interlocked.Increment(ref _twoTabs);
                await person.GoOnInTwoTabsAsync();
            }
            else
            {
                await person.GoOnAsync();
            }

            _people.Enqueue(person);
        }
    }
}
