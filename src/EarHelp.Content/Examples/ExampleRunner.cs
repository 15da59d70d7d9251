using System.Collections.Immutable;
using EarHelp.Content.Patients;
using EarHelp.Content.Problems;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Examples;

/// <summary>Assesses an example as the command <c>assess</c> does, and holds the result against what must come out.</summary>
sealed class ExampleRunner(Assessor assessor, ProblemList problems)
{
    readonly Dialog _dialog = assessor.Dialog;

    /// <summary>Null after a patient who cannot be.</summary>
    public ExampleRun? Run(Example example)
    {
        var given = Given(example);
        var (ears, faults) = new PatientAnswers(_dialog, example.IsClosed).Of(given);
        var result = faults.IsEmpty ? assessor.Assess(ears) : null;
        if (result is not { IsPossible: true })
        {
            problems.Add(Codes.ImpossibleExample, example.Spot, $"The patient of the example \"{example.Name}\" cannot be. {string.Join(' ', faults)}".Trim(),
                "Change the answers to ones that can stand together.");
            return null;
        }

        var told = new ExampleWords(_dialog, result);
        foreach (var expected in example.Musts.Where(e => !Holds(e, result, ears)))
            problems.Add(Codes.ExampleOtherwise, expected.Spot, $"The example \"{example.Name}\": {told.Wanted(expected)}, and {told.Came(expected)}.", "Decide from the evidence which of the two is wrong: the example, or the tables.");
        return new ExampleRun(example, result, DecidingTreatRules(ears)) { Ears = ears };
    }

    bool Holds(Expected expected, Assessment result, ImmutableArray<EarAnswers> ears) => expected switch
    {
        Expected.Level level => result.Level == level.Rank,
        Expected.FirstPlace place => result.Destinations is [var first, ..] && first == place.Destination,
        Expected.AdviceShown shown => result.Advice.Any(a => a.Item == shown.Item),
        Expected.AdviceNotShown hidden => result.Advice.All(a => a.Item != hidden.Item),
        Expected.ShutBy shut => ears.Any(ear => _dialog.Advice[shut.Item].NeverIf.Any(c => NameOf(c) == shut.Fact && new WhatHolds(_dialog, ear.OfFact).Holds(c) == true)),
        Expected.Warning warning => result.Warnings.Contains(warning.Name),
        Expected.WarningNotGiven warning => !result.Warnings.Contains(warning.Name),
        Expected.MayTreat treat => result.MayTreat is { } may && may.Hold == treat.Hold,
        Expected.DecidedBy by => result.Rules.Any(r => r.Decides && r.Rule == by.Rule),
        Expected.DecidedByMissing => false,
        Expected.ExplanationShown shown => result.Explanations.Contains(shown.Explanation),
        Expected.ExplanationNotShown hidden => !result.Explanations.Contains(hidden.Explanation),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    string NameOf(Condition condition) => condition.Of.IsNamedFact ? _dialog.NamedFacts[condition.Of.Index].Id : _dialog.Facts[condition.Of.Index].DecidingId;

    /// <summary>An answer about an ear is of each ear that is affected.</summary>
    ImmutableArray<GivenValue> Given(Example example)
    {
        // Where a question is missing, those that hang on it are not asked either.
        var answers = example.Answers.RemoveAll(a => IsNeverAsked(a.Fact));
        var affected = example.Answers.FirstOrDefault(a => a.Fact.Id == KnownFacts.EarsAffected);
        var areBoth = affected is { Fact.Values: FactValues.Named names } && affected.MayBe.Only is { } only && names.NameOf(only) is not ("left" or "right");
        return
        [
            .. answers.SelectMany(a => areBoth && a.Fact.About == About.Ear
                ? new Ear?[] { Ear.Left, Ear.Right }.Select(ear => new GivenValue(a.Fact, ear, a.MayBe, null))
                : [new GivenValue(a.Fact, null, a.MayBe, null)]),
        ];
    }

    bool IsNeverAsked(Fact fact) => fact.AppliesWhen.Any(c => c.Values.IsEmpty || (!c.Of.IsNamedFact && IsNeverAsked(_dialog.Facts[c.Of.Index])));

    ImmutableArray<int> DecidingTreatRules(ImmutableArray<EarAnswers> ears) =>
    [
        .. ears.Select(ear => new WhatHolds(_dialog, ear.OfFact))
            .Select(holds => _dialog.TreatRules.FirstOrDefault(r => r.Conditions.All(c => holds.Holds(c) == true))?.Index)
            .OfType<int>().Distinct(),
    ];
}

/// <summary>An example and what came out.</summary>
/// <param name="TreatRules">Rows that decided whether the clinic may treat.</param>
public sealed record ExampleRun(Example Example, Assessment Result, ImmutableArray<int> TreatRules)
{
    /// <summary>All answers, also those that a closed example does not list.</summary>
    public ImmutableArray<EarAnswers> Ears { get; init; } = [];
}
