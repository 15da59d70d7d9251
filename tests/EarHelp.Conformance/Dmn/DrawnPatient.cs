using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Conformance.Dmn;

/// <summary>A patient with one value for every fact that applies; drawn so that most answers are clear, as most people's are.</summary>
sealed record DrawnPatient(ImmutableArray<Answer> Answers, Assessment Result)
{
    const int Members = 6;

    /// <summary>The first so many that can be.</summary>
    public static ImmutableArray<DrawnPatient> Draw(Edition edition, Assessor assessor, int count)
    {
        var random = new Random(20261126);
        return
        [
            .. Enumerable.Range(0, int.MaxValue).Select(_ => DrawAnswers(edition.Dialog, random))
                .Select(answers => new DrawnPatient(answers, assessor.Assess([new EarAnswers(Ear.Left, answers)])))
                .Where(p => p.Result.IsPossible).Take(count),
        ];
    }

    public string ToJson(Dialog dialog) => JsonSerializer.Serialize(dialog.Facts.ToDictionary(f => f.DecidingId, f => ValueOf(f, Answers[f.Index])));

    static object? ValueOf(Fact fact, Answer answer) => answer is not Answer.Asked { MayBe.Only: { } value } ? null
        : fact.Values is FactValues.Numbers numbers ? numbers.ValueOf(value)
        : fact.Values.NameOf(value);

    static ImmutableArray<Answer> DrawAnswers(Dialog dialog, Random random)
    {
        var values = dialog.Facts.Select(f => f.Clear is { } clear && random.Next(Members) > 0 ? clear : random.Next(f.Values.Count)).ToArray();
        var applies = new bool?[values.Length];
        return [.. dialog.Facts.Select(f => Applies(f) ? new Answer.Asked(ValueSet.Of(values[f.Index])) : Answer.DoesNotApply)];

        bool Applies(Fact fact) => applies[fact.Index] ??= fact.AppliesWhen.All(Holds);

        bool Holds(Triage.Rules.Condition condition)
        {
            if (!condition.Of.IsNamedFact)
                return Applies(dialog.Facts[condition.Of.Index]) && condition.Values.Contains(values[condition.Of.Index]);
            var named = dialog.NamedFacts[condition.Of.Index];
            var value = named.Rows.FirstOrDefault(r => r.Conditions.All(Holds))?.Value ?? named.Otherwise ?? named.Rows[^1].Value;
            return condition.Values.Contains(value);
        }
    }
}
