using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Triage.Assessments;

/// <summary>What the diagrams say of the person and one ear.</summary>
sealed class EarResult
{
    readonly Restriction _restriction;
    readonly EarAnswers _answers;
    readonly bool[] _matters = [];

    public EarResult(Dialog dialog, DialogDiagrams diagrams, Restriction restriction, EarAnswers answers)
    {
        (_restriction, _answers) = (restriction, answers);
        Ear = answers.Ear;
        Span<ulong> known = stackalloc ulong[diagrams.Arity.Length];
        var isSure = KnownClasses.Fill(diagrams, answers, known);
        if (isSure && IsReadAsSure(dialog, diagrams, known))
            return;
        restriction.Begin(known);
        if (diagrams.RootsUnder(restriction) is not { } roots)
            return;
        IsPossible = true;
        var open = new List<int>();
        ReadLevels(Keep(restriction.Of(roots.Urgency, Merge.Places), open));
        var treat = Keep(restriction.Of(roots.Treat, Merge.Least), open);
        if (!dialog.TreatRules.IsEmpty && restriction.EndOf(treat) is { } end)
            Treat = Terminal.ValueOf(end);
        Advice = roots.Advice.Read(restriction, open);
        Warnings = roots.Warnings.Read(restriction, open);
        Forbidden = roots.Forbidden.Read(restriction, null);
        Explanations = roots.Explanations.Read(restriction, null);
        Rules = roots.Rules.Read(restriction, null);
        if (open.Count > 0 && AtLeast > 0)
            _matters = MatteringFacts(dialog, open);
    }

    public Ear Ear { get; }

    public bool IsPossible { get; private set; }

    public int AtMost { get; private set; }

    public int AtLeast { get; private set; }

    /// <summary>The destinations of each way in which the most urgent level that is still possible can come about.</summary>
    public ImmutableArray<ImmutableArray<int>> Places { get; private set; } = [];

    /// <summary>Index of the decision whether the clinic may treat, or null while it is open.</summary>
    public int? Treat { get; private set; }

    public Certainty[] Advice { get; private set; } = [];

    public Certainty[] Forbidden { get; private set; } = [];

    public Certainty[] Warnings { get; private set; } = [];

    public Certainty[] Explanations { get; private set; } = [];

    public Certainty[] Rules { get; private set; } = [];

    public bool AnyMatters => _matters.Length > 0;

    /// <summary>Its answer can still change the level, the destinations, the advice, the warnings or "may treat"; none, once the most urgent level is certain.</summary>
    public bool Matters(int fact) => _matters.Length > 0 && _matters[fact];

    public bool IsAsked(int fact) => _answers.OfFact[fact] is not Answer.NotAsked;

    static int Keep(int left, List<int> open)
    {
        if (!Terminal.Is(left))
            open.Add(left);
        return left;
    }

    /// <summary>The short way, when all is known: the same result without restricting anything.</summary>
    /// <returns>False if an answer that is not sure has a say after all: then nothing is read.</returns>
    bool IsReadAsSure(Dialog dialog, DialogDiagrams diagrams, ReadOnlySpan<ulong> known)
    {
        _restriction.BeginSure(known);
        if (_restriction.SureEndOf(diagrams.Possible) is not { } possible)
            return false;
        if (possible == Terminal.False)
            return true;
        var roots = diagrams.Plain;
        if (_restriction.SureEndOf(roots.Urgency) is not { } urgency || _restriction.SureEndOf(roots.Treat) is not { } treat)
            return false;
        if (diagrams.Sure.Read(_restriction, _restriction.PlacesOf(urgency).Rank) is not { } decided)
            return false;
        IsPossible = true;
        ReadLevels(urgency);
        Treat = dialog.TreatRules.IsEmpty ? null : Terminal.ValueOf(treat);
        (Rules, Advice, Forbidden, Warnings, Explanations) = decided;
        return true;
    }

    void ReadLevels(int urgency)
    {
        if (Terminal.Is(urgency))
        {
            var only = _restriction.PlacesOf(urgency);
            (AtMost, AtLeast, Places) = (only.Rank, only.Rank, [only.Destinations]);
            return;
        }

        var places = _restriction.EndsOf(urgency).ConvertAll(_restriction.PlacesOf);
        AtMost = places.Min(p => p.Rank);
        AtLeast = places.Max(p => p.Rank);
        Places = [.. places.Where(p => p.Rank == AtMost).Select(p => p.Destinations)];
    }

    bool[] MatteringFacts(Dialog dialog, List<int> open)
    {
        var matters = new bool[dialog.Facts.Length];
        _restriction.Mattering.Mark(open, Mattering.AnyFact, matters);
        if (!matters.Contains(true))
        {
            foreach (var root in open.Where(r => !_restriction.IsSettled(r)))
                _restriction.Mattering.MarkLeft(root, matters);
        }

        return matters;
    }
}
