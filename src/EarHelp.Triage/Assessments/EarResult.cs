using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Assessments;

/// <summary>What the diagrams say of the person and one ear.</summary>
sealed class EarResult
{
    readonly HashSet<int> _ends = [];
    readonly Restriction _restriction;
    readonly Dialog _dialog;
    readonly Roots _roots;
    readonly EarAnswers _answers;

    public EarResult(Dialog dialog, DialogDiagrams diagrams, Restriction restriction, EarAnswers answers)
    {
        (_dialog, _roots, _restriction, _answers) = (dialog, diagrams.Roots, restriction, answers);
        Ear = answers.Ear;
        Span<ulong> known = stackalloc ulong[diagrams.Arity.Length];
        KnownClasses.Fill(diagrams, answers, known);
        restriction.Begin(known);
        IsPossible = restriction.Of(_roots.Possible, Merge.Some) != Terminal.False;
        if (!IsPossible)
            return;
        ReadLevels();
        ReadTreat();
        Advice = [.. dialog.Advice.Select(a => Read(_roots.Advice[a.Index], a.Kind == AdviceKind.ToDo ? Merge.Every : Merge.Some))];
        Forbidden = [.. _roots.Forbidden.Select(r => Read(r, Merge.Some))];
        Warnings = [.. _roots.Warnings.Select(r => Read(r, Merge.Some))];
        Explanations = [.. _roots.Explanations.Select(r => Read(r, Merge.Some))];
        Rules = [.. _roots.Rules.Select(r => Read(r, Merge.Some))];
        Matters = MatteringFacts();
    }

    public Ear Ear { get; }

    public bool IsPossible { get; }

    public int AtMost { get; private set; }

    public int AtLeast { get; private set; }

    /// <summary>The destinations of each way in which the most urgent level that is still possible can come about.</summary>
    public ImmutableArray<ImmutableArray<int>> Places { get; private set; } = [];

    /// <summary>Index of the decision whether the clinic may treat, or null while it is open.</summary>
    public int? Treat { get; private set; }

    public ImmutableArray<Certainty> Advice { get; } = [];

    public ImmutableArray<Certainty> Forbidden { get; } = [];

    public ImmutableArray<Certainty> Warnings { get; } = [];

    public ImmutableArray<Certainty> Explanations { get; } = [];

    public ImmutableArray<Certainty> Rules { get; } = [];

    /// <summary>By fact: its answer can still change the level, the destinations, the advice, the warnings or "may treat".</summary>
    public bool[] Matters { get; } = [];

    public bool IsAsked(int fact) => _answers.OfFact[fact] is not Answer.NotAsked;

    void ReadLevels()
    {
        var urgency = _restriction.Of(_roots.Urgency, Merge.Places);
        _ends.Clear();
        _restriction.CollectEnds(urgency, _ends);
        var places = _ends.Select(_restriction.PlacesOf).ToArray();
        AtMost = places.Min(p => p.Rank);
        AtLeast = places.Max(p => p.Rank);
        Places = [.. places.Where(p => p.Rank == AtMost).Select(p => p.Destinations)];
    }

    void ReadTreat()
    {
        if (_dialog.TreatRules.IsEmpty)
            return;
        _ends.Clear();
        _restriction.CollectEnds(_restriction.Of(_roots.Treat, Merge.Least), _ends);
        if (_ends.Count == 1)
            Treat = Terminal.ValueOf(_ends.First());
    }

    Certainty Read(int root, Merge merge)
    {
        var left = _restriction.Of(root, merge);
        if (left == Terminal.True)
            return Certainty.Certain;
        if (left == Terminal.False)
            return Certainty.No;
        _ends.Clear();
        _restriction.CollectEnds(left, _ends);
        return !_ends.Contains(Terminal.True) ? Certainty.No : _ends.Contains(Terminal.False) ? Certainty.Possible : Certainty.Certain;
    }

    bool[] MatteringFacts()
    {
        var matters = new bool[_dialog.Facts.Length];
        var roots = DecidingRoots.Of(_dialog, _roots, _restriction);
        foreach (var root in roots)
            _restriction.MarkMattering(root, matters);
        if (!matters.Contains(true))
        {
            foreach (var root in roots.Where(r => !_restriction.IsSettled(r)))
                _restriction.MarkLeft(root, matters);
        }

        return matters;
    }
}

enum Certainty
{
    No,
    Possible,
    Certain,
}
