using System.Collections.Concurrent;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Nodes;

/// <summary>What people were told was kept, counted while faults happen.</summary>
sealed class Acknowledged
{
    readonly ConcurrentDictionary<string, byte> _forms = new(StringComparer.Ordinal);
    int _refused;

    /// <summary>Identifiers of the turns of forms that were answered.</summary>
    public ICollection<string> Forms => _forms.Keys;

    /// <summary>How often a form was not answered.</summary>
    public int Refused => _refused;

    public void Add(string form) => _forms.TryAdd(form, 0);

    public void Refuse() => Interlocked.Increment(ref _refused);

    /// <param name="served">What whoever should have answered says.</param>
    public Task MoreAsync(int forms, Func<string> served)
    {
        var enough = _forms.Count + forms;
        return Waiting.UntilAsync(() => Task.FromResult(_forms.Count >= enough), () => $"After {_forms.Count} forms nobody came further; {_refused} were refused. {served()}");
    }

    /// <summary>Waits until forms were refused: a fault is felt.</summary>
    public Task RefusedAsync(int forms)
    {
        var enough = _refused + forms;
        return Waiting.UntilAsync(() => Task.FromResult(_refused >= enough), () => $"Only {_refused} forms were refused: the fault is not felt.");
    }
}
