namespace EarHelp.Web.Turns;

/// <summary>Lets only one at a time begin a conversation for the same secret.</summary>
public sealed class BeginGate : IDisposable
{
    /// <summary>A power of two, so that a hash picks one by its lowest bits.</summary>
    const int Gates = 64;

    readonly SemaphoreSlim[] _gates = [.. Enumerable.Range(0, Gates).Select(_ => new SemaphoreSlim(1, 1))];

    /// <returns>To be disposed of when the conversation has begun.</returns>
    public async Task<IDisposable> EnterAsync(string key, CancellationToken cancellation)
    {
        var gate = _gates[StringComparer.Ordinal.GetHashCode(key) & (Gates - 1)];
        await gate.WaitAsync(cancellation);
        return new Passage(gate);
    }

    public void Dispose()
    {
        foreach (var gate in _gates)
            gate.Dispose();
    }

    sealed class Passage(SemaphoreSlim gate) : IDisposable
    {
        public void Dispose() => gate.Release();
    }
}
