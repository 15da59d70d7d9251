using System.Collections.Immutable;
using EarHelp.Cli.Keeping;
using EarHelp.Cli.Talking;
using EarHelp.Clinic.Requests;
using EarHelp.Content.Examples;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Stepping;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Triage.Rules;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Chooses example patients by what they would be told: each is tried in memory before it is kept.</summary>
sealed class PatientChoice
{
    /// <summary>So many patients of a level are tried at one moment.</summary>
    const int Tried = 6;

    /// <summary>A visit can be asked for while the clinic can still be reached: how far back a moment is looked for, and in which steps.</summary>
    static readonly Duration Step = Duration.FromMinutes(1) * StepMinutes;

    const int StepMinutes = 20;
    const int MostSteps = 400;

    /// <summary>Longer than any conversation takes.</summary>
    static readonly Duration BeforeSending = Duration.FromMinutes(1) * StepMinutes;

    readonly ServedEdition _edition;
    readonly EditionShelf _shelf;
    readonly ImmutableArray<ExampleRun> _all;
    readonly Dictionary<int, Queue<ExampleRun>> _pools;
    readonly Random _random;

    public PatientChoice(ServedEdition edition, EditionShelf shelf, ImmutableArray<ExampleRun> runs, Random random)
    {
        (_edition, _shelf, _random) = (edition, shelf, random);
        _all = [.. runs.OrderBy(r => r.Example.Name, StringComparer.Ordinal)];
        var mixed = _all.ToArray();
        random.Shuffle(mixed);
        _pools = mixed.Where(r => r.Result.Level is not null).GroupBy(r => r.Result.Level!.Value).ToDictionary(g => g.Key, g => new Queue<ExampleRun>(g));
    }

    /// <summary>The seed of the next conversation.</summary>
    public int NextSeed() => _random.Next();

    /// <summary>All example patients for whom this holds, in a mixed order that the seed decides.</summary>
    public ImmutableArray<ExampleRun> Where(Func<ExampleRun, bool> isMeant) => [.. _pools.OrderBy(p => p.Key).SelectMany(p => p.Value).Where(isMeant)];

    /// <summary>Somebody who is told the level in a conversation that begins at the moment; null: there is nobody.</summary>
    public Task<ChosenPatient?> AnyoneAsync(int level, Instant at, CancellationToken cancellation) =>
        FindAsync(level, Round(level), at, (_, _) => true, cancellation);

    /// <summary>Somebody who is told the level and may ask for a visit by the moment, or as shortly before it as can be; null: there is nobody.</summary>
    public async Task<ChosenPatient?> WhoMayAskAsync(int level, Instant by, CancellationToken cancellation)
    {
        var candidates = Round(level).Where(r => r.Result.Destinations.Any(d => _edition.Dialog.Destinations[d].Hours == DestinationHours.Clinic)).Take(Tried).ToImmutableArray();
        for (var step = 0; step < MostSteps && !candidates.IsEmpty; step++)
        {
            if (await FindAsync(level, candidates, by - BeforeSending - (Step * step), (told, sent) => VisitOffer.IsMade(_edition, told, sent), cancellation).ConfigureAwait(false) is { } found)
                return found;
        }

        return null;
    }

    /// <summary>Somebody who is told the level after a visit of which this was recorded; null: there is nobody.</summary>
    public async Task<ChosenPatient?> AfterVisitAsync(int level, Instant at, ImmutableArray<RecordedFact> recorded, CancellationToken cancellation)
    {
        foreach (var run in Round(level).Concat(_all))
        {
            var patient = new ChosenPatient(run, at, NextSeed()) { Recorded = recorded };
            if ((await TryAsync(patient, cancellation).ConfigureAwait(false)).Told is { } told && told.Rank == level)
                return patient with { Recorded = null, IsAfterVisit = true };
        }

        return null;
    }

    /// <summary>What the conversation comes to; nothing of it is kept.</summary>
    public async Task<ConversationState> TryAsync(ChosenPatient patient, CancellationToken cancellation) => (await TryWithClockAsync(patient, cancellation).ConfigureAwait(false)).State;

    async Task<(ConversationState State, Instant End)> TryWithClockAsync(ChosenPatient patient, CancellationToken cancellation)
    {
        var clock = new MovedClock(patient.At);
        var talk = new HeldTalk(new TurnTaking(new TurnsInMemory(), _shelf, clock), clock, _edition);
        var state = await talk.HoldAsync("tried", patient, cancellation).ConfigureAwait(false);
        return (state, clock.Now);
    }

    async Task<ChosenPatient?> FindAsync(int level, IEnumerable<ExampleRun> candidates, Instant at, Func<OutcomeTold, Instant, bool> isMeant, CancellationToken cancellation)
    {
        foreach (var run in candidates.Take(Tried))
        {
            var patient = new ChosenPatient(run, at, NextSeed());
            var (state, end) = await TryWithClockAsync(patient, cancellation).ConfigureAwait(false);
            if (state.Told is { } told && told.Rank == level && isMeant(told, end))
                return patient;
        }

        return null;
    }

    /// <summary>All patients of the level once round, beginning with another one each time.</summary>
    ImmutableArray<ExampleRun> Round(int level)
    {
        if (!_pools.TryGetValue(level, out var pool))
            return [];
        pool.Enqueue(pool.Dequeue());
        return [.. pool];
    }
}
