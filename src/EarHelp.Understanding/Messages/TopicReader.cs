using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <summary>Finds the answer that a message asks for.</summary>
public static class TopicReader
{
    /// <summary>What a listed phrase weighs: each of its own words, beside the ranking's score for words that are seldom.</summary>
    const double WeightOfWord = 4, WeightOfStopWord = 1;

    /// <summary>Below this the message is not taken to ask for any answer.</summary>
    const double Enough = 7;

    /// <summary>Words of sentences that ask nothing count so much less.</summary>
    const double WeightOfOthers = 0.4;

    const int Nearest = 3;

    /// <summary>What one fact weighs that is named beside a question, and several together.</summary>
    const double WeightOfFact = 2, WeightOfFacts = 4;

    /// <summary>Null: nothing is asked. Topics in the order of their scores, three at most.</summary>
    /// <param name="isQuestion">True if the message is to be taken as a question however it is put.</param>
    public static AskedTopics? Read(PhraseBook book, string text, bool isQuestion = false)
    {
        ArgumentNullException.ThrowIfNull(book);
        ArgumentNullException.ThrowIfNull(text);
        var words = new MessageWords(book, text);
        var asks = Asking(book, words);
        var said = MessageReader.Read(book, text, NoDay);
        var isPlainlyAsked = isQuestion || Array.Exists(asks, a => a);
        if (!isPlainlyAsked && !SaysNothing(said))
            return null;
        if (isQuestion || !isPlainlyAsked)
            Array.Fill(asks, true);
        var (found, ranked) = Rank(book, words, said, asks);
        if (found is null && isPlainlyAsked && Array.Exists(asks, a => !a))
        {
            // "My neighbour swears by candles. Are they any use?": what is asked about stands in another sentence.
            Array.Fill(asks, true);
            (found, ranked) = Rank(book, words, said, asks);
        }

        return found is null && !isPlainlyAsked ? null : new AskedTopics(found, ranked);
    }

    static (RankedTopic? Found, ImmutableArray<RankedTopic> Nearest) Rank(PhraseBook book, MessageWords words, Said said, bool[] asks)
    {
        var ids = book.Ranking.Ids.ToList();
        var scores = book.Ranking.Scores(Own(book, words, asks, isAsking: true));
        var others = book.Ranking.Scores(Own(book, words, asks, isAsking: false));
        var best = Findings.In(book.Topics, words).GroupBy(f => f.Meaning, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => WeightOf(book, words, asks, [.. g.SelectMany(f => f.Places).Distinct()]), StringComparer.Ordinal);

        foreach (var (facts, topic) in OfFacts(book, said))
            best[topic] = best.GetValueOrDefault(topic) + (facts.Length == 1 ? WeightOfFact : WeightOfFacts);

        var ranked = ids.Select((id, i) => (Id: id, Score: best.GetValueOrDefault(id) + (scores[i] * WeightOfRanking) + (others[i] * WeightOfRanking * WeightOfOthers)))
            .OrderByDescending(t => t.Score).Take(Nearest).Where(t => t.Score > 0).Select(t => new RankedTopic(t.Id, t.Score)).ToImmutableArray();
        return (ranked is [{ Score: >= Enough } first, ..] && (best.ContainsKey(first.Id) || book.Ranking.Shared(first.Id, Own(book, words, asks, isAsking: true)) >= FewestShared) ? first : null, ranked);
    }

    /// <summary>Where nothing listed is found, one word alone, however seldom, finds no answer.</summary>
    const int FewestShared = 2;

    /// <summary>A message that says nothing of any fact may be the name of an answer.</summary>
    static bool SaysNothing(Said said) => said.Signposts.IsEmpty && said.Facts.All(f => f.Standing == Standing.Mentioned);

    static IEnumerable<(int[] Facts, string Topic)> OfFacts(PhraseBook book, Said said)
    {
        var named = said.Facts.Where(f => f.Standing is Standing.Affirmed or Standing.Supposed or Standing.Past).Select(f => f.Fact).ToHashSet();
        return book.TopicsOfFacts.Where(t => Array.TrueForAll(t.Facts, named.Contains));
    }

    /// <summary>Days play no part in what is asked.</summary>
    static readonly LocalDate NoDay = new(2000, 1, 1);

    /// <summary>A phrase that is the whole message is enough, however common its words are.</summary>
    static double WeightOf(PhraseBook book, MessageWords words, bool[] asks, List<int> places) =>
        places.Sum(p => WeightOf(book, words, asks, p)) + (places.Count == words.Count && asks[0] ? Enough : 0);

    static double WeightOf(PhraseBook book, MessageWords words, bool[] asks, int place) =>
        (book.IsStopWord(words[place]) ? WeightOfStopWord : WeightOfWord) * (asks[place] ? 1 : WeightOfOthers);

    /// <summary>How much the ranking counts beside listed phrases.</summary>
    const double WeightOfRanking = 1;

    /// <summary>By word: whether its sentence asks something.</summary>
    static bool[] Asking(PhraseBook book, MessageWords words)
    {
        var asks = new bool[words.Count];
        var triggers = Findings.In(book.Triggers, words);
        for (var start = 0; start < words.Count; start = words.SentenceEnd(start))
        {
            var (from, end) = (start, words.SentenceEnd(start));
            var isNothing = triggers.Exists(t => t.Meaning.Kind == "asks nothing" && t.First >= from && t.First < end);
            var isAsking = words.HasMarkBefore(end, '?') || triggers.Exists(t => t.First >= from && t.First < end && Asks(words, triggers, t) && !triggers.Exists(n => n.Meaning.Kind == "no question" && n.First == t.First));
            if (isAsking && !isNothing)
                Array.Fill(asks, true, from, end - from);
        }

        return asks;
    }

    static bool Asks(MessageWords words, List<Finding<Trigger>> triggers, Finding<Trigger> found) => found.Meaning.Kind switch
    {
        "asks" => found.Places.Length > 1 || BeginsQuestion(words, triggers, found.First),
        "asks at the start" => BeginsQuestion(words, triggers, found.First),
        _ => false,
    };

    /// <summary>"Pls which", "and when": the word begins a clause, but for words that say nothing.</summary>
    static bool BeginsQuestion(MessageWords words, List<Finding<Trigger>> triggers, int at)
    {
        while (!words.BeginsSentence(at) && !words.BeginsClause(at))
        {
            at--;
            if (!triggers.Exists(t => t.Meaning.Kind == "before a question" && t.First == at))
                return false;
        }

        return true;
    }

    static IEnumerable<string> Own(PhraseBook book, MessageWords words, bool[] asks, bool isAsking)
    {
        for (var i = 0; i < words.Count; i++)
        {
            if (asks[i] == isAsking && !book.IsStopWord(words[i]))
                yield return words[i];
        }
    }
}

/// <param name="Found">The one that fits well enough; null: none does.</param>
/// <param name="Nearest">The best ones, whether they fit or not.</param>
public sealed record AskedTopics(RankedTopic? Found, ImmutableArray<RankedTopic> Nearest);

/// <param name="Id">The answer's name.</param>
public sealed record RankedTopic(string Id, double Score);
