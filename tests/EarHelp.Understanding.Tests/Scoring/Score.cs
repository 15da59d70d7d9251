using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Messages;
using NodaTime;

namespace EarHelp.Understanding.Tests.Scoring;

/// <summary>How well messages are read, counted against what their writers say that they hold.</summary>
public sealed class Score
{
    readonly SortedDictionary<string, int> _confusions = new(StringComparer.Ordinal);
    readonly List<string> _errors = [];

    public Ratio Facts { get; private set; }

    public Ratio Denials { get; private set; }

    /// <summary>Of facts that are dates or lengths of time.</summary>
    public Ratio Times { get; private set; }

    /// <summary>Right, of the facts found that name an ear.</summary>
    public (int Right, int Of) Ears { get; private set; }

    /// <summary>What was denied, and read as said.</summary>
    public int DeniedAsAffirmed { get; private set; }

    /// <summary>Danger signs affirmed, denied or mentioned, that some claim names.</summary>
    public (int Found, int Of) RedFlags { get; private set; }

    /// <summary>Questions whose first topic is one that the writer listed.</summary>
    public (int Right, int Of) Topics { get; private set; }

    /// <summary>Messages that ask nothing, and for which a topic was found.</summary>
    public int TopicsUnasked { get; private set; }

    public (int Right, int Of) Signposts { get; private set; }

    /// <summary>Messages with no emergency in their writer's eyes, for which one is shown.</summary>
    public int SignpostsUnasked { get; private set; }

    public IEnumerable<string> Errors => _errors;

    public IEnumerable<KeyValuePair<string, int>> Confusions => _confusions.OrderByDescending(c => c.Value);

    public static Score Of(IEnumerable<Utterance> utterances, PhraseBook book, Wording wording, Func<string, string?> topicOf)
    {
        var score = new Score();
        foreach (var utterance in utterances)
            score.Add(utterance, book, wording, topicOf(utterance.Text));
        return score;
    }

    void Add(Utterance utterance, PhraseBook book, Wording wording, string? topic)
    {
        var said = MessageReader.Read(book, utterance.Text, LocalDate.FromDateTime(utterance.At));
        var facts = book.Dialog.Facts;
        var affirmed = said.Facts.Where(f => f.Standing == Standing.Affirmed && !IsUsual(facts, f))
            .GroupBy(f => (facts[f.Fact].Id, f.Written)).ToDictionary(g => g.Key, g => g.First().Ear);
        var expected = utterance.Facts.ToDictionary(f => (f.Fact, f.Value));
        foreach (var (key, ear) in affirmed)
        {
            var isRight = expected.TryGetValue(key, out var wanted);
            Count(facts, key.Item1, isRight, found: true);
            if (isRight && wanted!.Ear is not null)
                Ears = (Ears.Right + (ear == wanted.Ear ? 1 : 0), Ears.Of + 1);
            if (!isRight)
                Tell(utterance, $"+ {key.Item1}={key.Item2}");
        }

        foreach (var key in expected.Keys.Where(k => !affirmed.ContainsKey(k)))
        {
            Count(facts, key.Item1, isRight: false, found: false);
            Tell(utterance, $"- {key.Item1}={key.Item2}");
        }

        var saidAtAll = affirmed.Keys.Select(k => k.Id).ToHashSet(StringComparer.Ordinal);
        AddDenials(utterance, said, facts, saidAtAll);
        AddRedFlags(utterance, said, facts, wording);
        AddTopic(utterance, topic);
        AddSignpost(utterance, said, wording, saidAtAll);
    }

    void Count(ImmutableArray<Fact> facts, string fact, bool isRight, bool found)
    {
        Facts = Facts.With(isRight, found);
        if (facts.First(f => f.Id == fact) is { } of && (of.Counted is not null || fact is "hearing worsened over" or "grommet out for"))
            Times = Times.With(isRight, found);
    }

    void AddDenials(Utterance utterance, Said said, ImmutableArray<Fact> facts, HashSet<string> affirmed)
    {
        var denied = said.Facts.Where(f => f.Standing == Standing.Denied || (f.Standing == Standing.Affirmed && IsUsual(facts, f)))
            .Select(f => facts[f.Fact].Id).Where(f => !affirmed.Contains(f)).ToHashSet(StringComparer.Ordinal);
        foreach (var fact in denied)
        {
            Denials = Denials.With(utterance.Denied.Contains(fact), found: true);
            if (!utterance.Denied.Contains(fact))
                Tell(utterance, $"+ no {fact}");
        }

        foreach (var fact in utterance.Denied)
        {
            if (!denied.Contains(fact))
            {
                Denials = Denials.With(isRight: false, found: false);
                Tell(utterance, $"- no {fact}");
            }

            if (affirmed.Contains(fact) && utterance.Facts.All(f => f.Fact != fact))
            {
                DeniedAsAffirmed++;
                Tell(utterance, $"! {fact} denied, read as said");
            }
        }
    }

    void AddRedFlags(Utterance utterance, Said said, ImmutableArray<Fact> facts, Wording wording)
    {
        var named = said.Facts.Select(f => facts[f.Fact].Id)
            .Concat(said.Signposts.SelectMany(s => wording.Signposts[s.Signpost].Claims).Where(c => !c.Of.IsNamedFact).Select(c => facts[c.Of.Index].Id))
            .ToHashSet(StringComparer.Ordinal);
        foreach (var fact in utterance.Facts.Select(f => f.Fact).Concat(utterance.Denied).Concat(utterance.Mentioned).Distinct())
        {
            if (facts.First(f => f.Id == fact).RedFlag is not RedFlag.Marked)
                continue;
            RedFlags = (RedFlags.Found + (named.Contains(fact) ? 1 : 0), RedFlags.Of + 1);
            if (!named.Contains(fact))
                Tell(utterance, $"! danger sign not found: {fact}");
        }
    }

    void AddTopic(Utterance utterance, string? topic)
    {
        if (utterance.Topics.IsEmpty)
        {
            TopicsUnasked += topic is null ? 0 : 1;
            return;
        }

        var isRight = topic is not null && utterance.Topics.Contains(topic);
        Topics = (Topics.Right + (isRight ? 1 : 0), Topics.Of + 1);
        if (!isRight)
            Tell(utterance, $"? {topic ?? "none"} for {string.Join(", ", utterance.Topics)}");
    }

    void AddSignpost(Utterance utterance, Said said, Wording wording, HashSet<string> affirmed)
    {
        if (utterance.Signpost is not { } wanted)
        {
            SignpostsUnasked += said.Signposts.Any(s => s.Standing == Standing.Affirmed) ? 1 : 0;
            return;
        }

        var isRight = said.Signposts.Any(s => wording.Signposts[s.Signpost].Id == wanted)
            || affirmed.Contains(wanted);
        Signposts = (Signposts.Right + (isRight ? 1 : 0), Signposts.Of + 1);
        if (!isRight)
            Tell(utterance, $"! signpost not found: {wanted}");
    }

    static bool IsUsual(ImmutableArray<Fact> facts, SaidFact said) => facts[said.Fact].Id == "hearing" && said.Written == "usual";

    void Tell(Utterance utterance, string error)
    {
        _errors.Add($"{utterance.Id} {error}");
        _confusions[error] = _confusions.GetValueOrDefault(error) + 1;
    }
}

/// <summary>Precision and recall, as counts.</summary>
public readonly record struct Ratio(int Right, int Wrong, int Missed)
{
    public double Precision => Right / (double)Math.Max(1, Right + Wrong);

    public double Recall => Right / (double)Math.Max(1, Right + Missed);

    public double Harmonic => 2 * Precision * Recall / Math.Max(double.Epsilon, Precision + Recall);

    /// <param name="found">False: it is in the message, and was not found.</param>
    public Ratio With(bool isRight, bool found) =>
        new(Right + (isRight ? 1 : 0), Wrong + (found && !isRight ? 1 : 0), Missed + (found ? 0 : 1));

    public override string ToString() => FormattableString.Invariant($"precision {Precision:0.000}  recall {Recall:0.000}  F1 {Harmonic:0.000}  (right {Right}, wrong {Wrong}, missed {Missed})");
}
