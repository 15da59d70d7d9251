using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;

namespace EarHelp.Proof.Comparing;

/// <summary>For whom, exactly, the result changes between two editions.</summary>
/// <param name="Patients">Possible in one of the editions or in both.</param>
/// <param name="Changed">How many of them get another level, destination, treatment, advice, warning or question; an explanation alone is not counted.</param>
/// <param name="Changes">The most dangerous first.</param>
/// <param name="Flow">By level before and after, the patients.</param>
/// <param name="Bound">The bound that was met, if the comparison could not finish: then nothing was shown. Else null.</param>
public sealed record EditionComparison(
    string Before,
    string After,
    BigInteger Patients,
    BigInteger Changed,
    ImmutableArray<Change> Changes,
    ImmutableArray<Edit> Edits,
    ImmutableArray<string> OnlyBefore,
    ImmutableArray<string> OnlyAfter,
    ImmutableArray<LevelFlow> Flow,
    ImmutableArray<TextChange> Texts,
    string? Bound)
{
    /// <summary>A row that patients read of, and that no decision of the questions shows, counts too.</summary>
    public bool ChangesNothing => Changes.IsEmpty && Texts.IsEmpty && Bound is null && !Edits.Any(e => e.IsBesideTheQuestions);

    /// <summary>What an approver confirms one by one.</summary>
    public ImmutableArray<Change> Decreases => [.. Changes.Where(c => c.Kind == ChangeKind.LessUrgent)];

    public static EditionComparison Of(Edition before, Edition after, int nodeLimit = EditionProof.NodeLimit)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var texts = TextChange.Between(before, after);
        try
        {
            var both = new ComparedSpaces(before, after, nodeLimit);
            var order = new LevelOrder(before.Dialog.Levels, after.Dialog.Levels);
            Difference[] differences = [.. new DecisionChanges(both, order).All(), .. new ShownChanges(both).All()];
            ImmutableArray<Change> changes =
            [
                .. differences.Select(both.Tell)
                    .OrderBy(c => c.Kind).ThenByDescending(c => c.Steps).ThenByDescending(c => c.Patients).ThenBy(c => c.Title, StringComparer.Ordinal),
            ];
            var changed = both.Space.Any(differences.Where(d => d.Kind != ChangeKind.ExplanationChanged).Select(d => d.Set));
            var possible = both.Space.Builder.Or(both.Old.Space.Possible, both.New.Space.Possible);
            return new EditionComparison(
                before.Id, after.Id, both.Count(possible), both.Count(changed), changes, both.Edits, both.Facts.OnlyOld, both.Facts.OnlyNew, LevelFlow.Of(both, order), texts, null);
        }
        catch (DiagramLimitException limit)
        {
            return new EditionComparison(before.Id, after.Id, 0, 0, [], [], [], [], [], texts, limit.Message);
        }
    }
}
