using System.Collections.Immutable;
using System.Numerics;
using EarHelp.Proof.Properties;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Seeing;

/// <summary>The whole dialog at a glance: what is asked, in order, and which rules lead where.</summary>
/// <param name="Screens">In asking order; the form first.</param>
/// <param name="Links">From a screen to a level: the rules of that level that stand on one of the screen's facts.</param>
public sealed record DialogMap(string Dialog, ImmutableArray<MappedScreen> Screens, ImmutableArray<MappedLevel> Levels, ImmutableArray<MapLink> Links)
{
    /// <exception cref="DiagramLimitException">The tables are larger than the bound of a proof.</exception>
    public static DialogMap Of(Edition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        var dialog = edition.Dialog;
        var proof = new ProofContext(ProofSpace.Of(dialog, EditionProof.NodeLimit), edition);
        var asking = new Asking(proof.Space);
        ImmutableArray<MappedScreen> screens =
        [
            new("form", [.. dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.DecidingId)]),
            .. asking.Screens.Select(s => new MappedScreen(s.Id, [.. s.Facts.Select(f => dialog.Facts[f].DecidingId)])),
        ];
        return new DialogMap(dialog.Id, screens, [.. dialog.Levels.Select(l => LevelOf(proof, asking, l.Rank))], [.. LinksOf(dialog, screens)]);
    }

    static MappedLevel LevelOf(ProofContext proof, Asking asking, int rank)
    {
        var set = proof.Space.Where(proof.Space.Roots.Level, r => r == rank);
        var longest = Enumerable.Range(0, asking.Screens.Length).Count(i => proof.Space.And(set, asking.AskedOf(i)) != Terminal.False);
        return new MappedLevel(proof.Dialog.Levels[rank].Id, [.. proof.Dialog.Rules.Where(r => r.Level == rank).Select(r => r.Id)], longest, proof.Count(set));
    }

    static IEnumerable<MapLink> LinksOf(Dialog dialog, ImmutableArray<MappedScreen> screens) =>
        from screen in screens
        from level in dialog.Levels
        let rules = dialog.Rules
            .Where(r => r.Level == level.Rank && FactsBehind.Of(dialog, r.Conditions).Any(f => screen.Facts.Contains(dialog.Facts[f].DecidingId)))
            .Select(r => r.Id).ToImmutableArray()
        where !rules.IsEmpty
        select new MapLink(screen.Id, level.Id, rules);
}

public sealed record MappedScreen(string Id, ImmutableArray<string> Facts);

/// <param name="ScreensAtMost">The longest way to it, in screens after the form: a bound that nobody passes, whatever is answered.</param>
public sealed record MappedLevel(string Id, ImmutableArray<string> Rules, int ScreensAtMost, BigInteger Patients);

public sealed record MapLink(string Screen, string Level, ImmutableArray<string> Rules);
