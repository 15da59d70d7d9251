using EarHelp.Proof.Spaces;

namespace EarHelp.Proof.Comparing;

/// <summary>Whose level, destinations and treatment change.</summary>
sealed class DecisionChanges(ComparedSpaces both, LevelOrder order)
{
    ProofSpace Old => both.Old.Space;

    ProofSpace New => both.New.Space;

    public IEnumerable<Difference> All() => [.. Levels(), .. Treat(), .. Where()];

    IEnumerable<Difference> Levels()
    {
        var pairs = new Pairing(both.Space).Differing(Old.Roots.Level, New.Roots.Level, (one, other) => NameOf(Old, one) == NameOf(New, other)).ToArray();
        foreach (var (before, after, set) in pairs)
        {
            if (!both.Count(set).IsZero)
                yield return LevelOf(NameOf(Old, before), NameOf(New, after), set);
        }
    }

    Difference LevelOf(string before, string after, int set)
    {
        if (after == NotPossible)
            return new Difference(ChangeKind.NewlyImpossible, set, before, after, 0);
        if (before == NotPossible)
            return new Difference(ChangeKind.NewlyPossible, set, before, after, 0);
        var steps = order.StepsDown(before, after);
        return new Difference(steps > 0 ? ChangeKind.LessUrgent : ChangeKind.MoreUrgent, set, before, after, Math.Abs(steps));
    }

    IEnumerable<Difference> Treat() =>
        from pair in new Pairing(both.Space).Differing(Old.Roots.Treat, New.Roots.Treat, (one, other) => one is null || other is null || HoldOf(Old, one.Value) == HoldOf(New, other.Value)).ToArray()
        where !both.Count(pair.Set).IsZero
        select new Difference(ChangeKind.TreatChanged, pair.Set, HoldOf(Old, pair.Before!.Value), HoldOf(New, pair.After!.Value), 0);

    IEnumerable<Difference> Where()
    {
        var pairs = new Pairing(both.Space).Differing(Old.Roots.Urgency, New.Roots.Urgency, (one, other) =>
            one is null || other is null || NameOf(Old, Old.Places[one.Value].Rank) != NameOf(New, New.Places[other.Value].Rank) || PlacesOf(Old, one.Value) == PlacesOf(New, other.Value));
        foreach (var (before, after, set) in pairs.ToArray())
        {
            if (!both.Count(set).IsZero)
                yield return new Difference(ChangeKind.WhereChanged, set, PlacesOf(Old, before!.Value), PlacesOf(New, after!.Value), 0);
        }
    }

    public const string NotPossible = "not possible";

    public static string NameOf(ProofSpace space, int? rank) => rank is { } known ? space.Dialog.Levels[known].Id : NotPossible;

    static string HoldOf(ProofSpace space, int decision) => space.Dialog.TreatRules.IsEmpty || space.Roots.TreatDecisions[decision].Hold is not { } hold ? "the clinic may treat" : $"not until {hold}";

    static string PlacesOf(ProofSpace space, int end) => string.Join(", ", space.Places[end].Destinations.Select(d => space.Dialog.Destinations[d].Id));
}
