namespace EarHelp.Triage.Diagrams;

/// <summary>The roots of a dialog's diagrams.</summary>
/// <param name="Level">Ends in ranks.</param>
/// <param name="Urgency">Ends in numbers of <see cref="WhereLists"/>: the level with its destinations that can be reached.</param>
/// <param name="Treat">Ends in indexes of <see cref="DialogDiagrams.TreatDecisions"/>; true if there is nothing to decide.</param>
/// <param name="Advice">By item: it is called for and nothing forbids it, and the level that it waits for is there.</param>
/// <param name="Forbidden">By item: an answer or a row forbids it (the level that it waits for apart).</param>
/// <param name="Warnings">In the order of the dialog's warnings.</param>
/// <param name="Rules">By rule: it matches.</param>
sealed record Roots(
    int Level,
    int Urgency,
    int Treat,
    RootGroup Advice,
    RootGroup Forbidden,
    RootGroup Warnings,
    RootGroup Explanations,
    RootGroup Rules)
{
    /// <summary>
    /// What is left of what must be the same for every completion before asking may stop: level, destinations, "may treat", advice,
    /// warnings. Ends are left out.
    /// </summary>
    public List<int> Deciding(Restriction restriction)
    {
        var open = new List<int>();
        foreach (var left in (ReadOnlySpan<int>)[restriction.Of(Urgency, Merge.Places), restriction.Of(Treat, Merge.Least)])
        {
            if (!Terminal.Is(left))
                open.Add(left);
        }

        Advice.AddOpen(restriction, open);
        Warnings.AddOpen(restriction, open);
        return open;
    }
}
