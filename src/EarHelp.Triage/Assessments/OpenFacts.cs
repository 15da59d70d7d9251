using System.Collections.Immutable;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Assessments;

/// <summary>The facts whose answer can still change the result of one or two ears.</summary>
static class OpenFacts
{
    public static ImmutableArray<OpenFact> Of(Dialog dialog, List<EarResult> ears)
    {
        if (!ears.Exists(e => e.AnyMatters))
            return [];
        var open = ImmutableArray.CreateBuilder<OpenFact>();
        foreach (var fact in dialog.Facts)
        {
            if (fact.About == About.Person && ears.Exists(e => e.Matters(fact.Index)))
                open.Add(new OpenFact(fact.Index, null));
            else if (fact.About == About.Ear)
                open.AddRange(ears.Where(e => e.Matters(fact.Index)).Select(e => new OpenFact(fact.Index, e.Ear)));
        }

        if (dialog.FindFact(KnownFacts.EarsAffected) is { } which
            && ears.Exists(e => !e.IsAsked(which.Index))
            && open.Any(o => o.Ear is not null)
            && !open.Any(o => o.Fact == which.Index))
        {
            open.Insert(open.TakeWhile(o => o.Fact < which.Index).Count(), new OpenFact(which.Index, null));
        }

        return open.ToImmutable();
    }
}
