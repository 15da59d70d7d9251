using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Messages;

/// <summary>How people say things in one language, ready to be looked for in a message. Built once, safe to share.</summary>
public sealed class PhraseBook
{
    readonly HashSet<string> _sideWords = new(StringComparer.Ordinal), _stopWords = new(StringComparer.Ordinal), _dayEndings = new(StringComparer.Ordinal);
    readonly Spelling _spelling = new(isOfMessages: true);
    readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);

    readonly HashSet<int> _loose;

    PhraseBook(Dialog dialog, Wording wording) =>
        (Dialog, Wording, _loose) = (dialog, wording, [.. wording.Signposts.SelectMany(s => s.Claims).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index)]);

    public Dialog Dialog { get; }

    internal Wording Wording { get; }

    internal SymbolTable Symbols { get; } = new();

    internal PatternTree<int> Classes { get; } = new();

    internal PatternTree<Phrase> Phrases { get; } = new();

    internal PatternTree<Trigger> Triggers { get; } = new(letsSideWordsIn: false);

    internal PatternTree<string> Topics { get; } = new();

    /// <summary>Facts that point at a topic where all of them are named.</summary>
    internal List<(int[] Facts, string Topic)> TopicsOfFacts { get; } = [];

    internal TopicRanking Ranking { get; private set; } = TopicRanking.Of([], NoWords, NoWords);

    static readonly ILookup<string, string> NoWords = Array.Empty<string>().ToLookup(p => p);

    /// <summary>What people write in several ways, and the one way in which patterns have it; by the first word.</summary>
    internal ILookup<string, (string[] Long, string Short)> ShortForms { get; private set; } = Array.Empty<(string[], string)>().ToLookup(_ => "");

    /// <summary>Words that name one thing together, by the first of them: no class of words fits a part of them.</summary>
    internal ILookup<string, string[]> OneThing { get; private set; } = Array.Empty<string[]>().ToLookup(_ => "");

    /// <summary>What begins, and the fact that holds its date.</summary>
    internal List<(Fact Thing, Fact Time)> BeganOn { get; } = [];

    /// <summary>What ends, and the fact that holds its date or the months since.</summary>
    internal List<(Fact Thing, Fact Time)> EndedOn { get; } = [];

    /// <summary>Facts that may stand between a thing and its time.</summary>
    internal HashSet<int> SharesTimes { get; } = [];

    /// <summary>What grows worse, and the fact that holds over how many days.</summary>
    internal List<(Fact Thing, Fact Time)> TookDays { get; } = [];

    /// <summary>What is said only where another thing is said too, and that thing.</summary>
    internal List<(Fact Thing, Fact Other)> OnlyWith { get; } = [];

    /// <summary>What is said although it is only named, where another thing is said too, and that thing.</summary>
    internal List<(Fact Thing, Fact Other)> SaidWith { get; } = [];

    /// <summary>What cannot be without another thing, and that thing: who tells the first has said the second.</summary>
    internal List<(Fact Thing, Fact Other)> BringsWithIt { get; } = [];

    /// <summary>Two things that, said of one ear, say a third.</summary>
    internal List<(Fact One, Fact Other, Fact Third)> TogetherSay { get; } = [];

    /// <summary>What is no more than named where a graver thing is said in the same words, and that thing.</summary>
    internal List<(Fact Thing, Fact Other)> YieldsTo { get; } = [];

    /// <summary>Facts that stay true although what they tell of is over.</summary>
    internal HashSet<int> StayTrue { get; } = [];

    /// <summary>Facts that stay true for a year and no longer.</summary>
    internal HashSet<int> TrueForYear { get; } = [];

    /// <summary>Facts that are no more than named where their words lie inside a longer phrase about something else.</summary>
    internal HashSet<int> HiddenInside { get; } = [];

    /// <summary>Facts of an ear whose words fit other parts of the body too.</summary>
    internal HashSet<int> OfEarAlone { get; } = [];

    /// <summary>Facts that are no more than named behind "nearly".</summary>
    internal HashSet<int> NotIfNearly { get; } = [];

    /// <summary>Values that say less than any other of their fact.</summary>
    internal List<(Fact Fact, string Value)> VagueValues { get; } = [];

    /// <summary>Facts that a question names without saying them.</summary>
    internal HashSet<int> AskedIsNotSaid { get; } = [];

    /// <summary>Facts that a question says however it is put: whoever asks for pain relief wants it.</summary>
    internal HashSet<int> AskedIsSaid { get; } = [];

    /// <summary>Facts that a denial of a word which only names them denies.</summary>
    internal HashSet<int> NameIsDenied { get; } = [];

    /// <summary>Facts that are numbers of whole years.</summary>
    internal HashSet<int> InYears { get; } = [];

    public static PhraseBook Build(Dialog dialog, Wording wording)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(wording);
        var book = new PhraseBook(dialog, wording);
        var speech = wording.Speech;
        book.ShortForms = speech.Triggers.Where(t => t.Name == "short forms").SelectMany(t => t.Patterns).Select(p => p.Split('=')).Where(p => p.Length == 2)
            .Select(p => (Long: WordList.Of(p[0]).Select(w => w.Text).ToArray(), Short: p[1].Trim())).ToLookup(f => f.Long[0], StringComparer.Ordinal);
        book.OneThing = speech.Triggers.Where(t => t.Name == "one thing").SelectMany(t => t.Patterns).Select(p => WordList.Of(p).Select(w => w.Text).ToArray()).ToLookup(w => w[0], StringComparer.Ordinal);
        foreach (var list in speech.Classes)
            book.AddAll(book.Classes, list.Patterns, book.Symbols.Add("@" + list.Name));
        foreach (var fact in speech.Facts)
            book.AddAll(book.Phrases, fact.Patterns, new Phrase(fact.Fact, fact.Values, null, fact.OnlyNames));
        foreach (var list in speech.Signposts)
            book.AddAll(book.Phrases, list.Patterns, new Phrase(null, null, Array.FindIndex([.. wording.Signposts], s => s.Id == list.Name)));
        for (var i = 0; i < wording.Signposts.Length; i++)
            book.AddAll(book.Phrases, wording.Signposts[i].SaidAs, new Phrase(null, null, i));
        foreach (var entry in wording.Questions.Values.SelectMany(q => q.Entries))
            book.AddDangerSign(dialog.Facts[entry.Fact], entry);
        foreach (var list in speech.Topics)
            book.AddTopic(list);
        foreach (var answer in wording.Answers.Values)
            book.AddAll(book.Topics, answer.AskedAs, answer.Id);
        foreach (var list in speech.Triggers)
            book.AddTriggers(list);
        var asked = speech.Topics.SelectMany(t => t.Patterns.Where(p => !p.StartsWith('+')).Select(p => (t.Name, Pattern: p))).ToLookup(p => p.Name, p => p.Pattern, StringComparer.Ordinal);
        var inQuestions = asked.SelectMany(t => t).SelectMany(p => p.Split(' ')).Where(w => w.StartsWith('@')).ToHashSet(StringComparer.Ordinal);
        book.Ranking = TopicRanking.Of(wording.Answers.Values, asked, speech.Classes.Select(c => (Name: "@" + c.Name, c.Patterns)).Where(c => inQuestions.Contains(c.Name))
            .SelectMany(c => c.Patterns.Select(p => (c.Name, Word: p))).ToLookup(p => p.Word, p => p.Name, StringComparer.Ordinal));
        foreach (var word in book.Symbols.Words)
            book._spelling.Add(word.TrimEnd('-'));
        return book;
    }

    void AddTopic(SpokenList list)
    {
        AddAll(Topics, [.. list.Patterns.Where(p => !p.StartsWith('+'))], list.Name);
        foreach (var pattern in list.Patterns.Where(p => p.StartsWith('+')))
            TopicsOfFacts.Add(([.. SpokenList.FactsIn(pattern).Select(Dialog.FindFact).OfType<Fact>().Select(f => f.Index)], list.Name));
    }

    /// <summary>Other ways to tick a danger sign mention it in a message: enough to ask about it, too little to say it.</summary>
    void AddDangerSign(Fact fact, EntryWords entry)
    {
        if (fact.RedFlag is RedFlag.Marked && fact.Values.IndexOf("yes") is { } yes)
            AddAll(Phrases, entry.SaidAs, new Phrase(fact.Index, ValueSet.Of(yes), null, OnlyMentions: true));
    }

    /// <summary>Whether a word stands in some phrase.</summary>
    public bool Knows(string word) => Symbols.Has(word) || Symbols.Begins(word) || _sideWords.Contains(word) || _stopWords.Contains(word) || NumberOf(word) is not null;

    /// <summary>Whether its gaps may run on into another sentence: those of signs that a signpost answers, and of what takes two sentences to say.</summary>
    internal bool IsLoose(Phrase phrase) => phrase.Signpost is not null || (phrase.Fact is { } fact && _loose.Contains(fact));

    /// <summary>The fact that it says, or what the signpost claims that it points to.</summary>
    internal IEnumerable<int> FactsOf(Phrase phrase) => phrase.Signpost is { } signpost
        ? Wording.Signposts[signpost].Claims.Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index)
        : phrase.Fact is { } fact ? [fact] : [];

    internal bool IsStopWord(string word) => _stopWords.Contains(word);

    /// <summary>Whether it follows the figure of a day, as in "4th".</summary>
    internal bool IsDayEnding(string letters) => _dayEndings.Contains(letters);

    internal bool IsSideWord(string word) => _sideWords.Contains(word);

    /// <summary>The figure that a word says; null: none.</summary>
    internal int? NumberOf(string word) =>
        _numbers.TryGetValue(word, out var number) ? number : word.Length <= 6 && int.TryParse(word, out number) ? number : null;

    internal string Mend(string word)
    {
        if (Symbols.Begins(word) || Knows(word))
            return word;
        foreach (var plain in RepeatedLetters.Shorter(word))
        {
            if (Symbols.Begins(plain) || Knows(plain))
                return plain;
        }

        return _spelling.Mend(word);
    }

    /// <summary>The rows that name facts, and where they are kept.</summary>
    HashSet<int>? FactsNamedIn(string row) => row switch
    {
        "shares times" => SharesTimes,
        "gaps go on" => _loose,
        "stays true" => StayTrue,
        "true for a year" => TrueForYear,
        "hidden inside" => HiddenInside,
        "of the ear alone" => OfEarAlone,
        "not if nearly" => NotIfNearly,
        "asked is not said" => AskedIsNotSaid,
        "asked is said" => AskedIsSaid,
        "name is denied" => NameIsDenied,
        "in years" => InYears,
        _ => null,
    };

    /// <summary>The rows that name two facts each, and where they are kept.</summary>
    List<(Fact, Fact)>? PairsNamedIn(string row) => row switch
    {
        "began on" => BeganOn,
        "ended on" => EndedOn,
        "took days" => TookDays,
        "only with" => OnlyWith,
        "said with" => SaidWith,
        "brings with it" => BringsWithIt,
        "yields to" => YieldsTo,
        _ => null,
    };

    void AddTriggers(SpokenList list)
    {
        FactsNamedIn(list.Name)?.UnionWith(FactsOf(list));
        PairsNamedIn(list.Name)?.AddRange(Pairs(list));
        switch (list.Name)
        {
            case "short forms":
                break;
            case "topic stop words":
                _stopWords.UnionWith(list.Patterns);
                break;
            case "day endings":
                _dayEndings.UnionWith(list.Patterns);
                break;
            case "side words":
                _sideWords.UnionWith(list.Patterns);
                break;
            case "never corrected":
                foreach (var word in list.Patterns)
                    _spelling.Add(word);
                break;
            case "number words":
                foreach (var pair in list.Patterns.Select(p => p.Split('=')).Where(p => p.Length == 2))
                    _numbers[pair[0].Trim()] = int.Parse(pair[1], System.Globalization.CultureInfo.InvariantCulture);
                foreach (var word in _numbers.Keys)
                    Symbols.Add(word);
                break;
            case "together say":
                foreach (var facts in list.Patterns.Select(p => p.Split('=', '+').Select(name => Dialog.FindFact(name.Trim())).OfType<Fact>().ToList()).Where(f => f.Count == 3))
                    TogetherSay.Add((facts[0], facts[1], facts[2]));
                break;
            case "named days":
                foreach (var pair in list.Patterns.Select(p => p.Split('=')).Where(p => p.Length == 2))
                {
                    if (NodaTime.Text.AnnualDatePattern.CreateWithInvariantCulture("M-d").Parse(pair[1].Trim()) is { Success: true, Value: var day })
                        AddAll(Triggers, [pair[0].Trim()], new Trigger(list.Name, day));
                }

                break;
            case "one thing":
                break;
            case "vague values":
                VagueValues.AddRange(from pair in list.Patterns.Select(p => p.Split('=')) where pair.Length == 2 let fact = Dialog.FindFact(pair[0].Trim()) where fact is not null select (fact, pair[1].Trim()));
                break;
            case var name when FactsNamedIn(name) is null && PairsNamedIn(name) is null:
                AddAll(Triggers, list.Patterns, new Trigger(list.Name));
                break;
        }
    }

    IEnumerable<int> FactsOf(SpokenList list) => list.Patterns.Select(Dialog.FindFact).OfType<Fact>().Select(f => f.Index);

    IEnumerable<(Fact, Fact)> Pairs(SpokenList list) =>
        from pair in list.Patterns.Select(p => p.Split('='))
        where pair.Length == 2
        let thing = Dialog.FindFact(pair[0].Trim())
        let time = Dialog.FindFact(pair[1].Trim())
        where thing is not null && time is not null
        select (thing, time);

    /// <summary>A row with every long form in it replaced, so that one pattern fits all ways to write it.</summary>
    List<string> Shortened(List<string> row)
    {
        var shortened = new List<string>(row.Count);
        for (var i = 0; i < row.Count; i++)
        {
            var form = ShortForms[row[i]].FirstOrDefault(f => f.Long.AsSpan().SequenceEqual(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(row).Slice(i, Math.Min(f.Long.Length, row.Count - i))));
            shortened.Add(form.Short ?? row[i]);
            i += form.Short is null ? 0 : form.Long.Length - 1;
        }

        return shortened;
    }

    void AddAll<T>(PatternTree<T> tree, ImmutableArray<string> patterns, T meaning)
    {
        foreach (var row in patterns.SelectMany(Pattern.Rows))
            tree.Add([.. Shortened(row).Select(w => w == Pattern.Gap ? (int?)null : Symbols.Add(w))], meaning);
    }
}
