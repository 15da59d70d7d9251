using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Conversation.Stepping;

/// <summary>
/// What was decided lately, by the answers it was decided for: most people answer the first screens alike. Bounded, and only a
/// shortcut: the same answers always give the same decision. Safe to share.
/// </summary>
sealed class Decisions(Assessor assessor, ImmutableArray<ImmutableArray<Answer>> known)
{
    /// <summary>So many are kept; one takes about two kilobytes.</summary>
    const int Most = 4096;

    readonly ConcurrentDictionary<Key, Decided> _lately = new();
    readonly ImmutableArray<ImmutableArray<Answer>> _alike = Alike(assessor, known);

    public Decided Of(ImmutableArray<EarAnswers> views)
    {
        var key = KeyOf(views);
        if (_lately.TryGetValue(key, out var decided))
            return decided;
        decided = new Decided(assessor, views);
        if (_lately.Count >= Most)
            _lately.Clear();
        _lately[key] = decided;
        return decided;
    }

    Key KeyOf(ImmutableArray<EarAnswers> views)
    {
        var facts = views[0].OfFact.Length;
        var answers = new Answer[facts * views.Length];
        var ears = 0;
        for (var ear = 0; ear < views.Length; ear++)
        {
            ears = (ears * 4) + (int)views[ear].Ear + 1;
            for (var fact = 0; fact < facts; fact++)
            {
                var answer = views[ear].OfFact[fact];
                answers[(ear * facts) + fact] =
                    answer is Answer.Asked { MayBe.Only: { } only } && only < _alike[fact].Length ? _alike[fact][only] : answer;
            }
        }

        return new Key(ears, answers);
    }

    /// <summary>By fact and value: the first value that no condition tells apart from it (35 years and 36 years, say).</summary>
    static ImmutableArray<ImmutableArray<Answer>> Alike(Assessor assessor, ImmutableArray<ImmutableArray<Answer>> known)
    {
        var nothing = new Answer[known.Length];
        Array.Fill(nothing, Answer.Unknown);
        return [.. known.Select((values, fact) => FirstOfEachClass(fact, values))];

        ImmutableArray<Answer> FirstOfEachClass(int fact, ImmutableArray<Answer> values)
        {
            var first = new Dictionary<int, Answer>();
            return [.. values.Select(value => first.TryGetValue(ClassOf(fact, value), out var alike) ? alike : first[ClassOf(fact, value)] = value)];
        }

        int ClassOf(int fact, Answer value)
        {
            var answers = (Answer[])nothing.Clone();
            answers[fact] = value;
            return assessor.ClassesOf(new EarAnswers(Ear.Left, ImmutableArray.Create(answers)))[fact];
        }
    }

    readonly struct Key : IEquatable<Key>
    {
        readonly int _ears;
        readonly Answer[] _answers;
        readonly int _hash;

        public Key(int ears, Answer[] answers)
        {
            (_ears, _answers) = (ears, answers);
            var hash = ears;
            foreach (var answer in answers)
                hash = unchecked((hash * 31) + HashOf(answer));
            _hash = hash;
        }

        public bool Equals(Key other)
        {
            if (_hash != other._hash || _ears != other._ears || _answers.Length != other._answers.Length)
                return false;
            for (var i = 0; i < _answers.Length; i++)
            {
                if (!ReferenceEquals(_answers[i], other._answers[i]) && !_answers[i].Equals(other._answers[i]))
                    return false;
            }

            return true;
        }

        public override bool Equals(object? obj) => obj is Key other && Equals(other);

        public override int GetHashCode() => _hash;

        static int HashOf(Answer answer) => answer switch
        {
            Answer.NotAsked => 1,
            Answer.NotApplicable => 2,
            Answer.Asked { MayBe: { IsEmpty: false } set } => unchecked((set.Least * 7) + (set.Greatest * 13) + set.Ranges.Length + 3),
            _ => 3,
        };
    }
}

/// <summary>The decision for some answers; each part is worked out when it is first asked for.</summary>
sealed class Decided(Assessor assessor, ImmutableArray<EarAnswers> views)
{
    StrongBox<int>? _atLeast;
    StrongBox<Triage.Asking.ScreenToAsk?>? _next;
    Assessment? _assessment;

    /// <summary>The least urgent rank still possible: it is at least this urgent.</summary>
    public int AtLeast => (_atLeast ??= new(assessor.BoundsOf(views).AtLeast)).Value;

    /// <summary>Null: nothing that is still open can change the result.</summary>
    public Triage.Asking.ScreenToAsk? Next => (_next ??= new(assessor.NextScreen(views))).Value;

    public Assessment Assessment => _assessment ??= assessor.Assess(views);
}
