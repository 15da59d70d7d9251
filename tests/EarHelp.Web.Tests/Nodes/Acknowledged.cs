using System.Collections.Concurrent;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>What people were told was kept, counted while faults happen.</summary>
sealed class Acknowledged
{
    static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    readonly ConcurrentDictionary<string, byte> _forms = new(StringComparer.Ordinal);
    int _refused;

    /// <summary>Identifiers of the turns of forms that were answered.</summary>
    public ICollection<string> Forms => _forms.Keys;

    /// <summary>How often a form was not answered.</summary>
    public int Refused => _refused;

    public void Add(string form) => _forms.TryAdd(form, 0);

    public void Refuse() => Interlocked.Increment(ref _refused);

    public async Task MoreAsync(int forms)
    {
        var enough = _forms.Count + forms;
        for (var from = TimeProvider.System.GetTimestamp(); _forms.Count < enough;)
        {
            Assert.True(TimeProvider.System.GetElapsedTime(from) < Patience, $"After {_forms.Count} forms nobody came further; {_refused} were refused.");
            await Task.Delay(20);
        }
    }
}
