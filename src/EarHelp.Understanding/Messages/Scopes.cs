namespace EarHelp.Understanding.Messages;

/// <summary>Which stretches of a message are denied, over, only supposed, or about somebody else.</summary>
/// <remarks>
/// After the published rules of NegEx (Chapman and others, 2001) and ConText (Harkema and others, 2009): a trigger reaches over the words after or
/// before it up to the end of its clause, or to a word that ends it. Which words are triggers is content.
/// </remarks>
sealed class Scopes
{
    /// <summary>How many words a denial reaches; a limit of the machine.</summary>
    const int Reach = 7;

    readonly MessageWords _words;
    readonly List<Finding<Trigger>> _triggers;
    readonly List<Finding<Phrase>> _phrases;
    readonly Dictionary<string, List<Finding<Trigger>>> _byKind = new(StringComparer.Ordinal);
    readonly bool[] _inPhrase, _denialEnds, _undoes, _joins, _goesOn, _clauseStart, _oneself, _breaks, _overGoesOn, _newSubject;

    public Scopes(MessageWords words, List<Finding<Trigger>> triggers, List<Finding<Phrase>> phrases)
    {
        (_words, _phrases) = (words, phrases);
        _inPhrase = Places(phrases);
        var masked = Places(triggers.FindAll(t => t.Meaning.Kind == "denies nothing"));
        _triggers = triggers.FindAll(t => t.Meaning.Kind is "denies nothing" or "denies a list" or "denies the last thing" or "denies the clause before" || !t.Meaning.Kind.StartsWith("denies", StringComparison.Ordinal)
            || (!Array.Exists(t.Places, p => masked[p]) && !Array.Exists(t.Places, p => _inPhrase[p])));
        foreach (var trigger in _triggers)
        {
            if (!_byKind.TryGetValue(trigger.Meaning.Kind, out var ofKind))
                _byKind[trigger.Meaning.Kind] = ofKind = [];
            ofKind.Add(trigger);
        }

        _denialEnds = Firsts("denial ends");
        _undoes = Firsts("denial undone");
        _joins = Firsts("joins");
        _goesOn = Places(Of("denial goes on"));
        _oneself = Firsts("oneself");
        _breaks = Firsts("breaks a phrase");
        _overGoesOn = Firsts("over goes on");
        _newSubject = Firsts("new subject");
        Denied = new bool[words.Count];
        DeniedAfterwards = new bool[words.Count];
        Over = new bool[words.Count];
        LongOver = new bool[words.Count];
        Supposed = new bool[words.Count];
        OfAnother = new bool[words.Count];
        OfThird = new bool[words.Count];
        OfAnybody = new bool[words.Count];
        Maybe = new bool[words.Count];
        _clauseStart = new bool[words.Count];
        for (var i = 0; i < words.Count; i++)
            _clauseStart[i] = words.BeginsClause(i) || _denialEnds[i];
        foreach (var trigger in _triggers)
            Mark(trigger);
    }

    public bool[] Denied { get; }

    /// <summary>Denied by words that come later: "discharge in May, none now".</summary>
    public bool[] DeniedAfterwards { get; }

    public bool[] Over { get; }

    /// <summary>Over for a year at least.</summary>
    public bool[] LongOver { get; }

    public bool[] Supposed { get; }

    public bool[] OfAnother { get; }

    /// <summary>Of people at large.</summary>
    public bool[] OfAnybody { get; }

    /// <summary>Of somebody who is neither the writer nor the one whose ears matter: "her brother".</summary>
    public bool[] OfThird { get; }

    public bool[] Maybe { get; }

    /// <summary>Whether anything is said of a word: denied, over, supposed.</summary>
    public bool IsMarked(int at) => Denied[at] || DeniedAfterwards[at] || Over[at] || Supposed[at] || OfAnybody[at];

    /// <summary>A new clause, or a word such as "but".</summary>
    public bool StartsClause(int at) => _clauseStart[at];

    public int ClauseStart(int at)
    {
        while (at > 0 && !_clauseStart[at])
            at--;
        return at;
    }

    public int ClauseEnd(int at)
    {
        var end = at + 1;
        while (end < _words.Count && !_clauseStart[end])
            end++;
        return end;
    }

    public bool IsInFirstSentence(int at) => _words.SentenceStart(at) == 0;

    public bool AreInOneSentence(int one, int other) => _words.SentenceStart(one) == _words.SentenceStart(other);

    public IEnumerable<SaidMark> Marks() => _triggers.Where(t => t.Meaning.Kind.StartsWith("denies", StringComparison.Ordinal) || t.Meaning.Kind is "over" or "long over" or "only supposed" or "of another" or "maybe")
        .Select(t => new SaidMark(t.Meaning.Kind, _words.Cover(t.First, t.Last)));

    public IReadOnlyList<Finding<Trigger>> Of(string kind) => _byKind.TryGetValue(kind, out var ofKind) ? ofKind : [];

    /// <summary>Whether a sentence asks what stands at a place: a word that asks stands before it, or a question mark ends the sentence and none stands behind it.</summary>
    public bool Asks(int start, int end, int at)
    {
        var asks = Asking().Where(t => t.First >= start && t.First < end).ToList();
        return asks.Exists(t => t.First <= at) || (_words.HasMarkBefore(end, '?') && asks.Count == 0);
    }

    /// <summary>Where the words begin that ask, last before a place; null: none asks.</summary>
    public int? AskingBefore(int start, int at) =>
        Asking().Where(t => t.First >= start && t.First <= at).Select(t => (int?)t.First).Max();

    IEnumerable<Finding<Trigger>> Asking() =>
        Of("asks").Where(t => t.Places.Length > 1 || _words.BeginsClause(t.First)).Concat(Of("asks at the start").Where(t => _words.BeginsClause(t.First)))
            .Where(t => !Of("no question").Any(n => n.First == t.First));

    void Mark(Finding<Trigger> trigger)
    {
        switch (trigger.Meaning.Kind)
        {
            case "denies what follows":
                DenyAfter(trigger);
                break;
            case "denies a list":
                Fill(Denied, trigger.Last + 1, _words.SentenceEnd(trigger.Last));
                break;
            case "denies what is before":
                DenyBefore(trigger);
                break;
            case "denies the last thing":
                if (LastNamed(trigger) is { } denied)
                    Fill(DeniedAfterwards, StartOfNamed(denied), denied + 1);
                break;
            case "denies the clause before":
                if (LastNamed(trigger) is { } before)
                    Fill(DeniedAfterwards, _words.CommaClauseStart(before), before + 1);
                break;
            case "last thing is over":
                if (LastNamed(trigger) is { } ended)
                    Fill(Over, _words.CommaClauseStart(ended), ended + 1);
                break;
            case "has ended":
                Fill(Denied, ClauseStart(trigger.First), trigger.First);
                break;
            case "over":
                FillAround(Over, trigger);
                break;
            case "long over":
                FillAround(Over, trigger);
                FillAround(LongOver, trigger);
                break;
            case "only supposed":
                Fill(Supposed, trigger.First, ClauseEnd(trigger.Last));
                break;
            case "ear of another":
                var (from, to) = (_words.CommaClauseStart(trigger.First), _words.CommaClauseEnd(trigger.Last));
                if (Array.IndexOf(_oneself, true, from, to - from) < 0)
                    Fill(OfAnother, from, to);
                break;
            case "of anybody":
                Fill(OfAnybody, trigger.First, ClauseEnd(trigger.Last));
                break;
            case "of another" when !Of("only tells").Any(t => t.First <= trigger.Last && t.Last >= trigger.First):
                FillPerson(OfAnother, trigger);
                break;
            case "of a third":
                Fill(OfThird, _words.CommaClauseStart(trigger.First), _words.CommaClauseEnd(trigger.Last));
                FillPerson(OfAnother, trigger);
                break;
            case "maybe":
                Fill(Maybe, trigger.First, ClauseEnd(trigger.Last));
                break;
        }
    }

    /// <summary>Up to the end of its clause, or to where one begins without a comma: "it isnt sore it just feels full".</summary>
    void DenyAfter(Finding<Trigger> trigger)
    {
        var left = Reach;
        var isNamed = false;
        for (var i = trigger.Last + 1; i < _words.Count && left > 0 && !_words.BeginsSentence(i); i++, left--)
        {
            if (_denialEnds[i] && !_inPhrase[i])
            {
                if (_undoes[i])
                    Array.Fill(Denied, false, trigger.Last + 1, i - trigger.Last - 1);
                break;
            }

            if (_words.BeginsClause(i) && !IsListed(i, trigger))
                break;
            if (isNamed && _newSubject[i] && !_inPhrase[i])
                break;
            isNamed |= _inPhrase[i];
            if (_joins[i] || (_inPhrase[i] && i > 0 && _joins[i - 1]))
                left = Reach;
            Denied[i] = true;
        }
    }

    /// <summary>A comma in "no pain, fever or discharge" does not end the denial; one before anything else does.</summary>
    bool IsListed(int at, Finding<Trigger> trigger)
    {
        if (at == trigger.Last + 1)
            return false;
        for (var i = at; i < _words.Count && !_words.BeginsSentence(i); i++)
        {
            if (_joins[i])
                return true;
            if (!_inPhrase[i] && !_goesOn[i] && !_words.IsSideWord(i))
                return false;
        }

        return false;
    }

    /// <summary>"Pain? no": the answer stands alone behind the thing. "No ringing no" says it twice and denies nothing else.</summary>
    void DenyBefore(Finding<Trigger> trigger)
    {
        if (trigger.First == 0)
            return;
        var next = trigger.Last + 1;
        var isAlone = next >= _words.Count || _words.BeginsClause(next) || _words.BeginsSentence(next);
        var isAfterQuestion = _words.HasMarkBefore(trigger.First, '?') || _words.HasMarkBefore(trigger.First, ':') || !_words.BeginsClause(trigger.First);
        if (!isAlone || !isAfterQuestion)
            return;
        for (var i = trigger.First - 1; i >= 0 && !Denied[i]; i--)
        {
            Denied[i] = true;
            if (_words.BeginsSentence(i) || _words.BeginsClause(i))
                return;
        }
    }

    /// <summary>The word of some phrase that stands last before a trigger.</summary>
    int? LastNamed(Finding<Trigger> trigger)
    {
        var at = Array.LastIndexOf(_inPhrase, true, Math.Max(0, trigger.First - 1));
        return trigger.First == 0 || at < 0 ? null : at;
    }

    /// <summary>Where the phrases begin that overlap a word, and those that overlap them: "... ringing in his; I have none of that".</summary>
    int StartOfNamed(int at)
    {
        while (_phrases.Where(p => p.First < at && p.Last >= at).Select(p => (int?)p.First).Min() is { } first)
            at = first;
        return at;
    }

    void FillPerson(bool[] marks, Finding<Trigger> trigger)
    {
        var start = trigger.First;
        while (start > ClauseStart(trigger.First) && !_oneself[start] && !_inPhrase[start - 1])
            start--;
        var end = trigger.Last + 1;
        while (end < _words.Count && !_words.BeginsSentence(end) && !_oneself[end] && !_breaks[end])
            end++;
        Fill(marks, start, end);
    }

    /// <summary>The sentence that it begins, or its clause.</summary>
    void FillAround(bool[] marks, Finding<Trigger> trigger)
    {
        var isFirst = _words.BeginsSentence(trigger.First);
        var end = ClauseEnd(trigger.Last);
        while (end < _words.Count && _overGoesOn[end] && !_words.BeginsClause(end))
            end = ClauseEnd(end);
        var (from, to) = isFirst ? (trigger.First, _words.SentenceEnd(trigger.Last)) : (ClauseStart(trigger.First - 1), end);
        if (trigger.Meaning.Kind == "long over" || !Of("not over").Any(n => n.First >= from && n.First < to))
            Fill(marks, from, to);
    }

    static void Fill(bool[] marks, int from, int to) => Array.Fill(marks, true, from, to - from);

    bool[] Firsts(string kind)
    {
        var marks = new bool[_words.Count];
        foreach (var trigger in Of(kind))
            marks[trigger.First] = true;
        return marks;
    }

    bool[] Places<T>(IReadOnlyList<Finding<T>> findings)
    {
        var marks = new bool[_words.Count];
        foreach (var place in findings.SelectMany(f => f.Places))
            marks[place] = true;
        return marks;
    }
}
