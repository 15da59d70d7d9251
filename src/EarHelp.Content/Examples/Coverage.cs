using System.Collections.Immutable;
using EarHelp.Content.Patients;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Examples;

/// <summary>What of a dialog the examples reach.</summary>
public static class Coverage
{
    /// <summary>The same, and the answers to what people ask: one is reached if nothing that was said forbids it, and nothing that could was left out.</summary>
    public static ImmutableArray<Covered> Of(Edition edition, ImmutableArray<ExampleRun> runs)
    {
        ArgumentNullException.ThrowIfNull(edition);
        bool IsShown(AnswerPage page, ExampleRun run) => run.Ears.All(ear =>
        {
            var holds = new WhatHolds(edition.Dialog, ear.OfFact);
            return page.NeverIf.All(c => holds.Holds(c) == false);
        });
        return
        [
            .. Of(edition.Dialog, runs),
            .. edition.Wordings.OrderBy(w => w.Key, StringComparer.Ordinal).SelectMany(w => w.Value.Answers.Values.OrderBy(a => a.Id, StringComparer.Ordinal))
                .Select(a => new Covered("answer", a.Id, a.Spot, runs.Count(run => IsShown(a, run)))),
        ];
    }

    /// <summary>Rules (also those on whether the clinic may treat), warnings, advice items, explanations, screens, outcome pages, in reading order.</summary>
    public static ImmutableArray<Covered> Of(Dialog dialog, ImmutableArray<ExampleRun> runs)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        int Count(Func<ExampleRun, bool> isReached) => runs.Count(isReached);
        return
        [
            .. dialog.Rules.Select(r => new Covered("rule", r.Id, r.Spot, Count(run => run.Result.Rules.Any(m => m.Rule == r.Index)))),
            .. dialog.TreatRules.Select(r => new Covered("may treat", r.Id, r.Spot, Count(run => run.TreatRules.Contains(r.Index)))),
            .. dialog.Warnings.Select(w => new Covered("warning", w, dialog.Rules.First(r => r.Warn.Contains(w)).Spot, Count(run => run.Result.Warnings.Contains(w)))),
            .. dialog.Advice.Select(a => new Covered("advice", a.Id, a.Spot, Count(run => run.Result.Advice.Any(g => g.Item == a.Index)))),
            .. dialog.Explanations.Select(e => new Covered("explanation", e.Id, e.Spot, Count(run => run.Result.Explanations.Contains(e.Index)))),
            .. dialog.Screens.Select(s => new Covered("screen", s.Id, dialog.Facts[s.Facts[0]].Spot, Count(run => run.Example.Answers.Any(a => s.Facts.Contains(a.Fact.Index))))),
            .. dialog.Levels.Select(l => new Covered("outcome page", l.Id, l.Spot, Count(run => run.Result.Level == l.Rank))),
        ];
    }
}

/// <param name="What">rule, advice, screen …</param>
/// <param name="Examples">How many examples reach it; a screen is reached by an answer to one of its facts.</param>
public sealed record Covered(string What, string Name, SourceSpot Spot, int Examples);
