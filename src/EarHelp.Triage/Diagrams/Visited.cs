namespace EarHelp.Triage.Diagrams;

/// <summary>Which nodes a walk has been to. Forgetting all of them costs nothing.</summary>
sealed class Visited
{
    int[] _stamp = new int[1024];
    int _round = 1;

    public void Clear() => _round++;

    /// <summary>True if the walk has not been there.</summary>
    public bool Add(int node)
    {
        if (node >= _stamp.Length)
            Array.Resize(ref _stamp, Math.Max(node + 1, _stamp.Length * 2));
        if (_stamp[node] == _round)
            return false;
        _stamp[node] = _round;
        return true;
    }
}
