namespace EarHelp.Storage.Records;

/// <summary>Conversations that a visit joins: the one from which it was asked for, and the one for the time after it.</summary>
static class Joined
{
    /// <summary>These conversations, and those that are joined to one of them.</summary>
    public static HashSet<string> With(IEnumerable<string> conversations, IReadOnlyCollection<(string After, string Before)> pairs)
    {
        var all = conversations.ToHashSet(StringComparer.Ordinal);
        int before;
        do
        {
            before = all.Count;
            foreach (var (after, earlier) in pairs.Where(p => all.Contains(p.After) || all.Contains(p.Before)))
            {
                all.Add(after);
                all.Add(earlier);
            }
        }
        while (all.Count > before);
        return all;
    }
}
