using System.Collections.Concurrent;
using System.Diagnostics.Metrics;
using System.Globalization;
using System.Text;

namespace EarHelp.Web.Metrics;

/// <summary>Adds up what a meter tells and writes it in Prometheus' text format, version 0.0.4.</summary>
public sealed class ExpositionText : IDisposable
{
    /// <summary>Unit: seconds. From a turn that waits for nothing to one that a proxy gives up.</summary>
    static readonly double[] Bounds = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5];

    readonly MeterListener _listener = new();
    readonly ConcurrentDictionary<(string Name, string Labels), double> _counters = new();
    readonly ConcurrentDictionary<string, double> _gauges = new(StringComparer.Ordinal);
    readonly ConcurrentDictionary<string, Measured> _histograms = new(StringComparer.Ordinal);

    public ExpositionText(ServiceMeter meter)
    {
        ArgumentNullException.ThrowIfNull(meter);
        _listener.InstrumentPublished = (instrument, listener) =>
        {
            if (instrument.Meter == meter.Meter)
                listener.EnableMeasurementEvents(instrument);
        };
        _listener.SetMeasurementEventCallback<long>((instrument, value, labels, _) => Take(instrument, value, labels));
        _listener.SetMeasurementEventCallback<int>((instrument, value, labels, _) => Take(instrument, value, labels));
        _listener.SetMeasurementEventCallback<double>((instrument, value, labels, _) => Take(instrument, value, labels));
        _listener.Start();
    }

    /// <param name="storeBytes">How much room the store takes; it is asked for at this moment only.</param>
    public string Write(long storeBytes)
    {
        _listener.RecordObservableInstruments();
        var text = new StringBuilder();
        foreach (var counter in _counters.GroupBy(c => c.Key.Name).OrderBy(c => c.Key, StringComparer.Ordinal))
        {
            text.Append("# TYPE ").Append(counter.Key).Append("_total counter\n");
            foreach (var (key, value) in counter.OrderBy(c => c.Key.Labels, StringComparer.Ordinal))
                Append(text, $"{key.Name}_total{key.Labels}", value);
        }

        foreach (var (name, value) in _gauges.Append(KeyValuePair.Create("earhelp_store_bytes", (double)storeBytes)).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            text.Append("# TYPE ").Append(name).Append(" gauge\n");
            Append(text, name, value);
        }

        foreach (var (name, measured) in _histograms)
            measured.AppendTo(text, name);
        return text.ToString();
    }

    public void Dispose() => _listener.Dispose();

    static void Append(StringBuilder text, string name, double value) =>
        text.Append(name).Append(' ').Append(value.ToString(CultureInfo.InvariantCulture)).Append('\n');

    static string Labels(ReadOnlySpan<KeyValuePair<string, object?>> labels)
    {
        var text = new StringBuilder();
        foreach (var (name, value) in labels)
        {
            var escaped = value?.ToString()?.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal);
            text.Append(text.Length == 0 ? '{' : ',').Append(name).Append("=\"").Append(escaped).Append('"');
        }

        return text.Length == 0 ? string.Empty : text.Append('}').ToString();
    }

    void Take(Instrument instrument, double value, ReadOnlySpan<KeyValuePair<string, object?>> labels)
    {
        if (instrument.IsObservable)
            _gauges[instrument.Name] = value;
        else if (instrument is Histogram<double>)
            _histograms.GetOrAdd(instrument.Name, _ => new Measured()).Add(value);
        else
            _counters.AddOrUpdate((instrument.Name, Labels(labels)), value, (_, before) => before + value);
    }

    /// <summary>How many values fell under each bound.</summary>
    sealed class Measured
    {
        readonly Lock _lock = new();
        readonly long[] _under = new long[Bounds.Length];
        long _count;
        double _sum;

        public void Add(double value)
        {
            lock (_lock)
            {
                _count++;
                _sum += value;
                for (var i = Bounds.Length - 1; i >= 0 && value <= Bounds[i]; i--)
                    _under[i]++;
            }
        }

        public void AppendTo(StringBuilder text, string name)
        {
            lock (_lock)
            {
                text.Append("# TYPE ").Append(name).Append(" histogram\n");
                for (var i = 0; i < Bounds.Length; i++)
                    Append(text, string.Create(CultureInfo.InvariantCulture, $"{name}_bucket{{le=\"{Bounds[i]}\"}}"), _under[i]);
                Append(text, name + "_bucket{le=\"+Inf\"}", _count);
                Append(text, name + "_sum", _sum);
                Append(text, name + "_count", _count);
            }
        }
    }
}
