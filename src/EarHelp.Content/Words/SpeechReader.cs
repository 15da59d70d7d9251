using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Words;

/// <summary>Reads how people say things: phrases of facts, classes of words, and the words that change what stands around them.</summary>
sealed class SpeechReader(Dialog dialog, WordPages pages, ICollection<string> answers, ICollection<string> signposts, ProblemList problems)
{
    /// <summary>Stands in the column "value" where the figure in the phrase is the value.</summary>
    const string Figure = "#";

    /// <summary>Stands in the column "value" where the words name the fact and say nothing of it.</summary>
    const string OnlyNamed = "named";

    const string Signpost = "signpost";

    static readonly string[] Kinds =
    [
        "denies what follows", "denies what is before", "denies nothing", "denial ends", "denial undone", "a name follows", "short forms", "long over", "true for a year", "hidden inside", "denies the clause before", "said with", "gaps go on", "new subject", "not over", "ends a gap", "ear of another", "nearly", "not if nearly", "one thing", "since an event", "tells when", "of anybody", "over goes on", "of a third", "elsewhere", "ear words", "of the ear alone", "vague values", "denial goes on", "joins", "maybe", "over", "only supposed", "asks",
        "somebody", "oneself", "about another", "of another", "side words", "left", "right", "both", "other side fine", "never corrected", "stays true",
        "today", "yesterday", "day before", "last weekend", "a week before", "a week after", "since", "ago", "days", "weeks", "months", "years", "over a time", "at once", "couple",
        "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "number words", "changed", "begun", "topic stop words", "own ear", "began on", "took days", "has ended", "breaks a phrase", "only tells", "clinician",
        "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december", "he or she",
        "asks nothing", "no question", "asks at the start", "before a question", "asked is not said", "asked is said", "in years", "name is denied", "only with", "yields to", "brings with it", "denies a list", "one of them", "together say", "named days", "is real", "of somebody real", "no anchor", "fortnights", "denies the last thing", "last thing is over", "day endings", "ended on", "shares times", "ended", "since then", "slowly", "over a night",
    ];

    public Speech Read()
    {
        if (!pages.Of(WordPages.Phrases).Any() && !pages.Of(WordPages.Context).Any() && !pages.Of(WordPages.WordClasses).Any())
            return Speech.None;
        var classes = ReadLists(WordPages.WordClasses, "class", "said as", null);
        var triggers = ReadLists(WordPages.Context, "trigger", "said as", Kinds);
        var facts = ReadFacts([.. classes.Select(c => c.Name)]);
        var topics = ReadLists(WordPages.Topics, "topic", "asked as", [.. answers]);
        foreach (var topic in topics)
            ReportFacts(topic);
        ReportSilent(triggers);
        ReportWithout(facts);
        var emergencies = ReadLists(WordPages.Phrases, Signpost, "said as", [.. signposts]);
        ReportUnused(classes, facts.SelectMany(f => f.Patterns).Concat(emergencies.SelectMany(e => e.Patterns)));
        return new Speech(facts, classes, triggers, topics, emergencies);
    }

    ImmutableArray<SpokenFact> ReadFacts(ImmutableHashSet<string> classes)
    {
        var facts = ImmutableArray.CreateBuilder<SpokenFact>();
        var given = new Dictionary<(int Fact, string Pattern), string>();
        foreach (var table in pages.TablesOf(WordPages.Phrases).Where(t => t.Kind != Signpost))
        {
            var columns = Columns.Of(table, ["fact", "value", "said as"], [], problems);
            foreach (var row in table.Rows)
            {
                var (name, value, said) = (row.Cells[0], columns.Cell(row, "value"), columns.Cell(row, "said as"));
                if (name.IsNothing)
                {
                    facts.Add(new SpokenFact(null, null, SaidAs.Read(said), row.Spot));
                    continue;
                }

                if (dialog.FindFact(name.Text) is not { } fact)
                {
                    problems.AddUnknown(Codes.UnknownName, name.Spot, "fact", name.Text, dialog.Facts.Select(f => f.Id));
                    continue;
                }

                if (value.IsMissing || !IsValue(fact, value))
                    continue;
                var patterns = SaidAs.Read(said);
                ReportClasses(patterns, said, classes);
                ReportShortBeginnings(patterns, said.Spot);
                foreach (var pattern in patterns.Where(p => !given.TryAdd((fact.Index, p), value.Text)))
                    ReportAgain(fact, pattern, given[(fact.Index, pattern)], value.Text, said);
                facts.Add(new SpokenFact(fact.Index, ValuesOf(fact, value.Text), patterns, row.Spot, value.Text == OnlyNamed));
            }
        }

        return facts.ToImmutable();
    }

    /// <summary>Null: the figure in the phrase. Words that only name a fact carry its first value, which nobody reads.</summary>
    static ValueSet? ValuesOf(Fact fact, string value) =>
        value == Figure ? null : ValueSet.Of(value == OnlyNamed ? 0 : fact.Values.IndexOf(value)!.Value);

    void ReportAgain(Fact fact, string pattern, string before, string now, PageCell cell)
    {
        if (before == now)
            problems.Add(Codes.PhraseTwice, cell.Spot, $"\"{pattern}\" stands twice for the fact \"{fact.Id}\".", "Keep one of them.");
        else
            problems.Add(Codes.PhraseForTwoValues, cell.Spot, $"\"{pattern}\" says both \"{before}\" and \"{now}\" of the fact \"{fact.Id}\".", "Keep it where it is meant most often, and make the other one longer.");
    }

    void ReportShortBeginnings(ImmutableArray<string> patterns, SourceSpot spot)
    {
        foreach (var pattern in patterns)
        {
            foreach (var word in pattern.Split(' ', '/', '(', ')').Where(w => w.EndsWith('-') && w.Length <= ShortestBeginning && !char.IsAsciiDigit(w[0])))
                problems.Add(Codes.BeginningTooShort, spot, $"\"{word}\" in \"{pattern}\" is too short to begin a word, and never fits.", "Write at least three letters before the hyphen, or list the words.");
        }
    }

    /// <summary>A denial whose words also stand in the row of those that deny nothing is always overruled.</summary>
    void ReportSilent(ImmutableArray<SpokenList> triggers)
    {
        var silent = triggers.Where(t => t.Name == DeniesNothing).SelectMany(t => t.Patterns).ToHashSet(StringComparer.Ordinal);
        foreach (var list in triggers.Where(t => t.Name is "denies what follows" or "denies what is before"))
        {
            foreach (var pattern in list.Patterns.Where(silent.Contains))
                problems.Add(Codes.TriggerNeverFires, list.Spot, $"\"{pattern}\" never denies anything: it also stands in the row \"{DeniesNothing}\".", "Take it out of one of the two rows.");
        }
    }

    const string DeniesNothing = "denies nothing";

    /// <summary>Letters and hyphen of the longest beginning that never fits.</summary>
    const int ShortestBeginning = 3;

    bool IsValue(Fact fact, PageCell value)
    {
        if (value.Text == OnlyNamed || (value.Text == Figure ? fact.Values is FactValues.Numbers : fact.Values.IndexOf(value.Text) is not null))
            return true;
        problems.AddUnknown(Codes.UnknownName, value.Spot, $"value of the fact \"{fact.Id}\"", value.Text,
            fact.Values is FactValues.Named named ? [.. named.Names, OnlyNamed] : [Figure, OnlyNamed]);
        return false;
    }

    void ReportClasses(ImmutableArray<string> patterns, PageCell cell, ImmutableHashSet<string> classes)
    {
        foreach (var name in patterns.SelectMany(NamesIn).Where(n => !classes.Contains(n)))
            problems.AddUnknown(Codes.UnknownName, cell.Spot, "class of words", name, classes);
    }

    ImmutableArray<SpokenList> ReadLists(string kind, string what, string said, string[]? known)
    {
        var lists = ImmutableArray.CreateBuilder<SpokenList>();
        var given = new HashSet<string>(StringComparer.Ordinal);
        foreach (var table in pages.TablesOf(kind).Where(t => kind != WordPages.Phrases || t.Kind == Signpost))
        {
            var columns = Columns.Of(table, [what, said], [], problems);
            foreach (var row in table.Rows)
            {
                var name = row.Cells[0];
                if (known is not null && !known.Contains(name.Text))
                    problems.AddUnknown(Codes.UnknownName, name.Spot, what, name.Text, known);
                else if (!given.Add(name.Text))
                    problems.Add(Codes.DoubledName, name.Spot, $"\"{name.Text}\" stands twice.", "Keep one of them.");
                else
                    lists.Add(new SpokenList(name.Text, SaidAs.Read(columns.Cell(row, said)), row.Spot));
            }
        }

        return lists.ToImmutable();
    }

    /// <summary>A pattern of a topic that begins with a plus names facts.</summary>
    void ReportFacts(SpokenList topic)
    {
        foreach (var name in topic.Patterns.SelectMany(SpokenList.FactsIn).Where(n => dialog.FindFact(n) is null))
            problems.AddUnknown(Codes.UnknownName, topic.Spot, "fact", name, dialog.Facts.Select(f => f.Id));
    }

    void ReportUnused(ImmutableArray<SpokenList> classes, IEnumerable<string> patterns)
    {
        var used = patterns.SelectMany(NamesIn).Concat(pages.TablesOf(WordPages.Context).Concat(pages.TablesOf(WordPages.Topics)).SelectMany(t => t.Rows).SelectMany(r => r.Cells).SelectMany(c => NamesIn(c.Text)))
            .ToHashSet(StringComparer.Ordinal);
        foreach (var unused in classes.Where(c => !used.Contains(c.Name)))
            problems.Add(Codes.ClassUnused, unused.Spot, $"No phrase uses the class \"{unused.Name}\".", $"Write @{unused.Name} in a phrase, correct the name, or take the row out.");
    }

    static IEnumerable<string> NamesIn(string pattern) => pattern.Split(' ', ',', '/', '(', ')').Where(w => w.StartsWith('@')).Select(w => w[1..]);

    void ReportWithout(ImmutableArray<SpokenFact> facts)
    {
        var said = facts.Where(f => f.Fact is not null).Select(f => f.Fact!.Value).ToHashSet();
        var spot = pages.Of(WordPages.Phrases).FirstOrDefault()?.Source.SpotAt(0) ?? pages.First!.Source.SpotAt(0);
        foreach (var fact in dialog.Facts.Where(f => f.Counted is null && f.Values is FactValues.Named && !said.Contains(f.Index)))
            problems.Add(Codes.FactWithoutPhrases, spot, $"Nobody has listed how people say \"{fact.Id}\".", "Add a row with phrases for it to a table \"fact | value | said as\".");
        foreach (var kind in (string[])[WordPages.Context, WordPages.WordClasses, WordPages.Topics])
        {
            if (!pages.Of(kind).Any())
                problems.Add(Codes.MissingWords, spot, $"The phrases stand alone: there is no file of the kind \"{kind}\".", $"Bring back the file with the setting \"words: {kind}\".");
        }
    }
}
