using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Triage.Assessments;

/// <summary>What must be the same for every completion before asking may stop: level, destinations, advice, warnings, "may treat".</summary>
static class DecidingRoots
{
    /// <summary>What is left of each deciding root under the restriction's present knowledge; ends are left out.</summary>
    public static List<int> Of(Dialog dialog, Roots roots, Restriction restriction)
    {
        var left = new List<int>();
        Add(roots.Urgency, Merge.Places);
        Add(roots.Treat, Merge.Least);
        foreach (var item in dialog.Advice)
            Add(roots.Advice[item.Index], item.Kind == AdviceKind.ToDo ? Merge.Every : Merge.Some);
        foreach (var warning in roots.Warnings)
            Add(warning, Merge.Some);
        return left;

        void Add(int root, Merge merge)
        {
            var rest = restriction.Of(root, merge);
            if (!Terminal.Is(rest))
                left.Add(rest);
        }
    }
}
