namespace EarHelp.Understanding.Messages;

/// <summary>Which ear each thing in a message is said of.</summary>
sealed class Sides
{
    readonly Scopes _scopes;
    readonly MessageWords _words;
    readonly List<(int At, string Side)> _named = [];

    /// <param name="isAboutAnother">True if the ears of somebody else are the ones that matter.</param>
    public Sides(MessageWords words, Scopes scopes, bool isAboutAnother)
    {
        (_words, _scopes) = (words, scopes);
        foreach (var side in (string[])["left", "right", "both"])
            _named.AddRange(scopes.Of(side).Where(t => !IsNoEar(t)).Select(t => (t.First, side)));
        if (!isAboutAnother)
            _named.RemoveAll(n => scopes.OfAnother[n.At]);
        _named.Sort();
    }

    /// <summary>"The right one is fine", "just left school"; but "right hand side" is longer than the hand in it.</summary>
    bool IsNoEar(Finding<Trigger> side) => _scopes.Of("other side fine").Any(f => f.First <= side.First && f.Last >= side.Last);

    /// <summary>All that is named; null: none.</summary>
    public string? All
    {
        get
        {
            var sides = _named.Select(n => n.Side).Distinct().ToList();
            return sides.Count switch
            {
                0 => null,
                1 => sides[0],
                _ => "both",
            };
        }
    }

    /// <summary>The word that names a side first, or either side of both.</summary>
    public int PlaceOf(string side) => _named.Find(n => n.Side == side) is { Side: not null } named ? named.At : _named[0].At;

    /// <summary>The side named nearest: in the clause, else in the sentence, else the only one of the message.</summary>
    public string? Of(int first, int last)
    {
        if (_named.Count == 0)
            return null;
        var nearest = Nearest(_scopes.ClauseStart(first), _scopes.ClauseEnd(last), first, last)
            ?? Nearest(_words.SentenceStart(first), _words.SentenceEnd(last), first, last)
            ?? Before(first);
        return nearest ?? (_named.Select(n => n.Side).Distinct().Count() == 1 ? _named[0].Side : null);
    }

    string? Before(int at) => _named.Where(n => n.At < at).Select(n => n.Side).LastOrDefault();

    string? Nearest(int from, int to, int first, int last)
    {
        string? nearest = null;
        var least = int.MaxValue;
        foreach (var (at, side) in _named)
        {
            if (at < from || at >= to)
                continue;
            var away = at < first ? first - at : at > last ? at - last : 0;
            if (away < least)
                (nearest, least) = (side, away);
        }

        return nearest;
    }
}
