using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.States;

/// <summary>A fact of the person, or of one ear.</summary>
/// <param name="Fact">Its index.</param>
/// <param name="Ear">Null for a fact about the person.</param>
public readonly record struct FactOfEar(int Fact, Ear? Ear);

/// <summary>What was said of a fact.</summary>
public readonly record struct GivenAnswer(FactOfEar Of, Said Said);

/// <summary>The moment from which a level, or a more urgent one, was certain.</summary>
/// <param name="Rank">0 is the most urgent.</param>
public readonly record struct LevelReached(int Rank, Instant At);

/// <summary>The answers of a conversation, sorted by fact and ear.</summary>
static class AnswerList
{
    public static Said? Find(this ImmutableArray<GivenAnswer> answers, FactOfEar of)
    {
        foreach (ref readonly var answer in answers.AsSpan())
        {
            if (answer.Of == of)
                return answer.Said;
        }

        return null;
    }

    /// <summary>Puts an answer in its place, instead of an earlier one.</summary>
    public static void Put(List<GivenAnswer> answers, FactOfEar of, Said said)
    {
        var at = 0;
        while (at < answers.Count && Compare(answers[at].Of, of) < 0)
            at++;
        if (at < answers.Count && answers[at].Of == of)
            answers[at] = new GivenAnswer(of, said);
        else
            answers.Insert(at, new GivenAnswer(of, said));
    }

    static int Compare(FactOfEar one, FactOfEar other) =>
        one.Fact != other.Fact ? one.Fact.CompareTo(other.Fact) : Nullable.Compare(one.Ear, other.Ear);
}
