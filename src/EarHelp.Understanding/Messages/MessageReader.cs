using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>Reads a message for what it says about facts. Time is linear in its length; knows no word that is not in the edition.</summary>
public sealed class MessageReader
{
    readonly PhraseBook _book;
    readonly MessageWords _words;
    readonly Scopes _scopes;
    readonly Sides _sides;
    readonly List<Finding<Phrase>> _phrases;
    readonly List<SaidTime> _times;
    readonly List<SaidFact> _facts = [];
    readonly List<(int Fact, int At)> _ended = [];
    readonly HashSet<int> _plainlyNamed = [];
    readonly Finding<Trigger>? _another;

    MessageReader(PhraseBook book, string text, LocalDate today)
    {
        _book = book;
        _words = new MessageWords(book, text);
        var triggers = Findings.In(book.Triggers, _words);
        foreach (var end in triggers.Where(t => t.Meaning.Kind == "breaks a phrase"))
            _words.StopGapsAt(end.First);
        var all = Findings.In(book.Phrases, _words);
        var ends = new bool[_words.Count];
        foreach (var end in triggers.Where(t => t.Meaning.Kind == "ends a gap"))
            ends[end.First] = true;
        all.RemoveAll(f => !book.IsLoose(f.Meaning) && f.HasInGap(ends));
        _phrases = Overlaps.Settle(book, all, triggers);
        _scopes = new Scopes(_words, triggers, _phrases);
        _another = Person.Another(_scopes);
        _sides = new Sides(_words, _scopes, _another is not null);
        _times = Times.Read(book, _words, _scopes, today);
    }

    /// <param name="today">The date at the clinic.</param>
    public static Said Read(PhraseBook book, string text, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(text);
        return new MessageReader(book, text, today).Read();
    }

    Said Read()
    {
        if (_words.Count == 0)
            return new Said([], [], []);
        var signposts = ImmutableArray.CreateBuilder<SaidSignpost>();
        foreach (var found in _phrases)
        {
            var standing = StandingOf(found);
            if (found.Meaning.Signpost is { } signpost)
                signposts.Add(new SaidSignpost(signpost, standing, _words.Cover(found.First, found.Last)));
            else if (found.Meaning.Fact is { } fact)
                AddFact(found, _book.Dialog.Facts[fact], standing);
            if (standing == Standing.Mentioned && found.Meaning.Fact is { } named && !_scopes.IsMarked(found.First) && !(_another is not null ? _scopes.OfThird : _scopes.OfAnother)[found.First])
                _plainlyNamed.Add(named);
        }

        _facts.RemoveAll(f => f.Standing == Standing.Affirmed && _ended.Exists(e => e.Fact == f.Fact && _words.Own(e.At).Span.Start > f.Span.Start));
        KeepOnlyWith();
        _facts.RemoveAll(f => f.Standing == Standing.Mentioned && _facts.Exists(o => o.Fact == f.Fact && o.Standing != Standing.Mentioned));
        new Course(_book, _words, _scopes, _times).AddTo(_facts);
        KeepOneValue();
        AddPersonAndEars();
        return new Said([.. _facts], signposts.ToImmutable(), [.. _scopes.Marks()]);
    }

    void AddFact(Finding<Phrase> found, Fact fact, Standing standing)
    {
        var span = _words.Cover(found.First, found.Last);
        var written = found.Meaning.Values is { } values ? WrittenValue.Of(fact, values) : FigureIn(found, fact);
        if (written is null)
            return;
        if (written == "no" && standing == Standing.Affirmed)
            _ended.Add((fact.Index, found.First));
        if (standing == Standing.Denied && fact.Clear is null && fact.Values.IndexOf("no") is null)
            standing = Standing.Mentioned;
        if (written == "no")
            (written, standing) = ("yes", standing is Standing.Affirmed ? Standing.Denied : standing is Standing.Denied ? Standing.Supposed : standing);
        _facts.Add(new SaidFact(fact.Index, written, EarOf(fact, found), standing, _scopes.Maybe[found.First], span));
    }

    string? EarOf(Fact fact, Finding<Phrase> found) => fact.About == About.Ear ? _sides.Of(found.First, found.Last) : null;

    string? FigureIn(Finding<Phrase> found, Fact fact)
    {
        if (fact.Values is not FactValues.Numbers)
            return null;
        // The "a" in "a 9" is no figure.
        foreach (var place in found.Places.OrderByDescending(p => char.IsAsciiDigit(_words[p][0])))
        {
            var word = _words[place];
            if (decimal.TryParse(word, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var figure)
                || decimal.TryParse(word.Split('/')[0], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out figure)
                || decimal.TryParse(word.TrimEnd('y', 'o', 'r', 's', 'f', 'm', 'c', 'k', 'g'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out figure))
                return InRange(fact, Years(found, fact, figure, place + 1));
            if (_book.NumberOf(word) is { } number)
            {
                var isTwoWords = place + 1 < _words.Count && number >= 20 && _book.NumberOf(_words[place + 1]) is > 0 and < 10;
                return InRange(fact, isTwoWords ? number + _book.NumberOf(_words[place + 1])!.Value : Years(found, fact, number, place + 1));
            }
        }

        return null;
    }

    /// <summary>Of "5 months" the whole years, if the unit is part of the phrase; null if it is not.</summary>
    decimal? Years(Finding<Phrase> found, Fact fact, decimal figure, int unitAt)
    {
        if (!_book.InYears.Contains(fact.Index))
            return figure;
        foreach (var (kind, inYear) in ((string, int)[])[("days", 365), ("weeks", 52), ("months", 12)])
        {
            if (_scopes.Of(kind).Any(u => u.First == unitAt))
                return found.Holds(unitAt) ? decimal.Floor(figure / inYear) : null;
        }

        return figure;
    }

    static string? InRange(Fact fact, decimal? figure)
    {
        if (figure is null)
            return null;
        // "A temp of 102" counts in degrees Fahrenheit; rounded up to a step.
        if (fact.Values is FactValues.Numbers { Unit: "°C" } degrees && figure > degrees.To)
            figure = decimal.Ceiling((figure.Value - 32) / 1.8m / degrees.Step) * degrees.Step;
        var written = figure.Value.ToString(CultureInfo.InvariantCulture);
        return fact.Values.IndexOf(written) is null ? null : written;
    }

    Standing StandingOf(Finding<Phrase> found)
    {
        var staysTrue = found.Meaning.Fact is { } fact && _book.StayTrue.Contains(fact);
        var isDenied = found.Meaning is not { Fact: not null, Values: null }
            && (_scopes.Denied[found.First] || IsDeniedWithin(found) || (_scopes.DeniedAfterwards[found.First] && !staysTrue && !IsTrueForYear(found)));
        if (found.Meaning.OnlyMentions)
            return isDenied && found.Meaning.Fact is { } named && _book.NameIsDenied.Contains(named) ? Standing.Denied : Standing.Mentioned;
        if (isDenied)
            return Standing.Denied;
        if (_another is not null ? _scopes.OfThird[found.First] : _scopes.OfAnother[found.First])
            return Standing.OfAnother;
        if (IsElsewhere(found) || IsNearly(found))
            return Standing.Mentioned;
        if (_scopes.OfAnybody[found.First] || (_scopes.Supposed[found.First] && !staysTrue && !IsSaidByAsking(found) && !_scopes.Of("is real").Any(r => r.Last >= found.First && r.First <= found.Last)) || IsOnlyAsked(found) || IsAskedAtLarge(found))
            return Standing.Supposed;
        var isOver = IsTrueForYear(found) ? _scopes.LongOver[found.First] : _scopes.Over[found.First] && !staysTrue;
        return isOver ? Standing.Past : Standing.Affirmed;
    }

    bool IsTrueForYear(Finding<Phrase> found) => found.Meaning.Fact is { } fact && _book.TrueForYear.Contains(fact);

    /// <summary>"How loud is the suction?" does not say that there was any, but "since the suction on Monday, is that usual?" does.</summary>
    bool IsOnlyAsked(Finding<Phrase> found)
    {
        if (found.Meaning.Fact is not { } fact || !_book.AskedIsNotSaid.Contains(fact))
            return false;
        var (start, end) = (_words.SentenceStart(found.First), _words.SentenceEnd(found.Last));
        return _scopes.Asks(start, end, found.First) && !_times.Exists(t => t.First >= start && t.First < end) && !IsIn("since then") && !IsIn("tells when");

        bool IsIn(string kind) => _scopes.Of(kind).Any(t => t.First >= start && t.First < end);
    }

    /// <summary>"Do ears bleed afterwards?": behind a word that asks, in a clause that names nobody whose ear it might be. An emergency is never only asked about.</summary>
    bool IsAskedAtLarge(Finding<Phrase> found)
    {
        if (found.Meaning.Fact is null || _book.IsLoose(found.Meaning) || IsSaidByAsking(found))
            return false;
        var asking = _scopes.AskingBefore(_words.SentenceStart(found.First), found.First);
        if (asking is not { } from)
            return false;
        var (start, end) = (Math.Max(from, _words.CommaClauseStart(found.First)), _words.CommaClauseEnd(found.Last));
        return !Array.Exists(Anchors, kind => _scopes.Of(kind).Any(t => t.First >= start && t.First < end && !_scopes.Of("no anchor").Any(n => n.First <= t.First && n.Last >= t.First)));
    }

    bool IsSaidByAsking(Finding<Phrase> found) => found.Meaning.Fact is { } fact && _book.AskedIsSaid.Contains(fact);

    static readonly string[] Anchors = ["of somebody real", "left", "right", "since an event"];

    bool IsNearly(Finding<Phrase> found) =>
        _book.FactsOf(found.Meaning).Any(_book.NotIfNearly.Contains) && _scopes.Of("nearly").Any(n => n.Last == found.First - 1 || (n.Last < found.First && n.Last >= found.First - 3 && !_scopes.StartsClause(found.First)));

    /// <summary>"Every muscle aches": a thing of the ear, in a clause that names another part of the body and no ear.</summary>
    bool IsElsewhere(Finding<Phrase> found)
    {
        if (found.Meaning.Fact is not { } fact || !_book.OfEarAlone.Contains(fact))
            return false;
        var (start, end) = (_words.CommaClauseStart(found.First), _words.CommaClauseEnd(found.Last));
        return IsIn("elsewhere") && !IsIn("ear words");

        bool IsIn(string kind) => _scopes.Of(kind).Any(t => t.First >= start && t.Last < end && (t.Last < found.First || t.First > found.Last || kind == "ear words"));
    }

    bool IsDeniedWithin(Finding<Phrase> found)
    {
        for (var at = found.First; at <= found.Last; at++)
        {
            if (_scopes.Denied[at] && found.Holds(at))
                return true;
        }

        return false;
    }

    /// <summary>Of two values that a message gives to one fact of one ear, the later one in the fact's order is kept.</summary>
    void KeepOneValue()
    {
        foreach (var group in _facts.Where(f => f.Standing == Standing.Affirmed).GroupBy(f => f.Fact).Where(g => g.DistinctBy(f => f.Written).Count() > 1).ToList())
        {
            var fact = _book.Dialog.Facts[group.Key];
            var values = fact.Values;
            if (group.Any(f => !IsVague(f)))
                _facts.RemoveAll(f => f.Fact == group.Key && f.Standing == Standing.Affirmed && IsVague(f));
            if (_facts.Where(f => f.Fact == group.Key && f.Standing == Standing.Affirmed).DistinctBy(f => f.Written).Count() < 2)
                continue;
            var kept = (values, fact.Worse) switch
            {
                (FactValues.Named, _) => group.Where(f => !IsVague(f)).MaxBy(f => values.IndexOf(f.Written))!,
                (FactValues.Numbers, Worse.Towards { Higher: true }) => group.MaxBy(f => values.IndexOf(f.Written))!,
                _ => group.MaxBy(f => f.Span.Length)!,
            };
            _facts.RemoveAll(f => f.Fact == group.Key && f.Standing == Standing.Affirmed && f.Written != kept.Written);
        }
    }

    bool IsVague(SaidFact said) => _book.VagueValues.Exists(v => v.Fact.Index == said.Fact && v.Value == said.Written);

    /// <summary>How long a spin lasts is not said where nothing spins; being sick is said of the headache that is. What is not said is named all the same.</summary>
    void KeepOnlyWith()
    {
        var alone = _book.OnlyWith.Where(p => !IsSaid(p.Other));
        foreach (var (thing, other) in alone.Concat(_book.YieldsTo.Where(p => IsSaid(p.Other))).Concat(alone))
        {
            for (var i = 0; i < _facts.Count; i++)
            {
                if (_facts[i].Fact == thing.Index && _facts[i].Standing == Standing.Affirmed && !(thing.Clear is { } clear && _facts[i].Written == thing.Values.NameOf(clear)))
                    _facts[i] = _facts[i] with { Standing = Standing.Mentioned };
            }
        }

        foreach (var (thing, other) in _book.BringsWithIt)
            AddBrought(thing, other);
        foreach (var (one, other, third) in _book.TogetherSay.Where(t => IsSaid(t.Other)))
            AddBrought(one, third);

        foreach (var (thing, _) in _book.SaidWith.Where(p => _plainlyNamed.Contains(p.Thing.Index) && IsSaid(p.Other)))
        {
            if (!_facts.Exists(f => f.Fact == thing.Index && f.Standing != Standing.Mentioned))
                _facts.Add(_facts.First(f => f.Fact == thing.Index) with { Standing = Standing.Affirmed });
        }

        bool IsSaid(Fact fact) => _facts.Exists(f => f.Fact == fact.Index && f.Standing == Standing.Affirmed);
    }

    /// <summary>Says a thing in the words of another that brings it with it, unless it is said or denied in words of its own.</summary>
    void AddBrought(Fact by, Fact thing)
    {
        if (_facts.Find(f => f.Fact == by.Index && f.Standing == Standing.Affirmed) is { } said && !_facts.Exists(f => f.Fact == thing.Index && f.Standing is Standing.Affirmed or Standing.Denied)
            && thing.Values.IndexOf("yes") is not null)
            _facts.Add(said with { Fact = thing.Index, Written = "yes", Ear = thing.About == About.Ear ? said.Ear : null });
    }

    string? EarsSaid()
    {
        var said = _facts.Where(f => f is { Standing: Standing.Affirmed, Ear: not null } && !_book.StayTrue.Contains(f.Fact) && !_book.EndedOn.Exists(e => e.Thing.Index == f.Fact || e.Time.Index == f.Fact)).Select(f => f.Ear).Distinct().ToList();
        return said.Count switch
        {
            0 => (_facts.Count == 0 && !_scopes.Asks(0, _words.Count, 0)) || _facts.Exists(f => f.Standing == Standing.Affirmed) ? _sides.All : null,
            1 => said[0],
            _ => "both",
        };
    }

    void AddPersonAndEars()
    {
        if (_book.Dialog.FindFact(KnownFacts.AboutWhom) is { } whom && _another is { } named && whom.Values.IndexOf("someone else") is { } other)
            _facts.Add(new SaidFact(whom.Index, whom.Values.NameOf(other), null, Standing.Affirmed, false, _words.Cover(named.First, named.Last)));
        if (_book.Dialog.FindFact(KnownFacts.EarsAffected) is { } ears && EarsSaid() is { } all && ears.Values.IndexOf(all) is not null)
            _facts.Add(new SaidFact(ears.Index, all, null, Standing.Affirmed, false, _words.Own(_sides.PlaceOf(all)).Span));
    }
}
