using System.Diagnostics.Metrics;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Storage;
using EarHelp.Web.Editions;

namespace EarHelp.Web.Metrics;

/// <summary>What the service counts and measures of itself, for <c>System.Diagnostics.Metrics</c> and whatever listens to it. It holds nothing about a patient.</summary>
public sealed class ServiceMeter
{
    /// <summary>The name by which a listener finds it.</summary>
    public const string Name = "EarHelp";

    readonly Counter<long> _turns;
    readonly Counter<long> _outcomes;
    readonly Counter<long> _faults;
    readonly Histogram<double> _durations;

    public ServiceMeter(IMeterFactory meters)
    {
        ArgumentNullException.ThrowIfNull(meters);
        var meter = Meter = meters.Create(Name);
        _turns = meter.CreateCounter<long>("earhelp_turns");
        _outcomes = meter.CreateCounter<long>("earhelp_outcomes");
        _faults = meter.CreateCounter<long>("earhelp_faults");
        _durations = meter.CreateHistogram<double>("earhelp_turn_seconds");
    }

    internal Meter Meter { get; }

    /// <summary>Measures, whenever it is asked, how the store and the edition stand.</summary>
    internal void Watch(IStore store, ServedEditions editions, TimeProvider clock)
    {
        Meter.CreateObservableGauge("earhelp_ready", () => store.IsHealthy && editions.Current is not null ? 1 : 0);
        Meter.CreateObservableGauge("earhelp_store_waiting", () => store.Waiting);
        Meter.CreateObservableGauge("earhelp_edition_age_seconds", () => editions.ServedSince is { } since ? (clock.GetUtcNow() - since).TotalSeconds : 0);
    }

    /// <param name="seconds">From when it was read to when it was on the disk.</param>
    public void Count(TurnTaken taken, double seconds)
    {
        _durations.Record(seconds);
        _turns.Add(1, KeyValuePair.Create<string, object?>("result", taken switch
        {
            TurnTaken.Kept { IsRepeated: true } => "repeated",
            TurnTaken.Kept => "kept",
            TurnTaken.NotSaved => "not saved",
            _ => "unknown",
        }));
        if (taken is not TurnTaken.Kept { IsRepeated: false } kept)
            return;
        foreach (var outcome in kept.Replies.OfType<Reply.Outcome>())
            _outcomes.Add(1, KeyValuePair.Create<string, object?>("level", outcome.Told.Level));
    }

    /// <param name="kind">The name of a type of fault.</param>
    public void CountFault(string kind) => _faults.Add(1, KeyValuePair.Create<string, object?>("kind", kind));
}
