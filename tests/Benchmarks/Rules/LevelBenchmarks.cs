using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;

namespace Benchmarks.Rules;

/// <summary>How long it takes to decide for a patient all of whose facts are known, beside a general rule engine in the same run.</summary>
[MemoryDiagnoser]
[MedianColumn]
[ShortRunJob]
[InProcess]
public class LevelBenchmarks
{
    const int Patients = 64;
    const int Seed = 20_261_125;

    readonly List<(int[] Classes, ImmutableArray<EarAnswers> Ears, Known Known)> _patients = [];
    Assessor _assessor = null!;
    GeneralRuleEngine _general = null!;
    int _next;

    [GlobalSetup]
    public void Prepare()
    {
        _assessor = ShippedEdition.Compile().Assessor!;
        _general = new GeneralRuleEngine(_assessor.Dialog);
        var chance = new Random(Seed);
        while (_patients.Count < Patients)
        {
            var patient = Patient.Draw(_assessor.Dialog, chance, clearPercent: 90);
            var answers = patient.Answers();
            var classes = _assessor.ClassesOf(answers);
            if (_assessor.LevelOf(classes) is { } level)
                Keep(patient, answers, classes, level);
        }
    }

    [Benchmark(Baseline = true)]
    public int? Level() => _assessor.LevelOf(Next().Classes);

    [Benchmark]
    public Assessment WholeAssessment() => _assessor.Assess(Next().Ears);

    [Benchmark]
    public async Task<int> LevelByRulesEngine() => await _general.LevelOfAsync(Next().Known);

    /// <summary>Both engines must say the same, or the comparison means nothing.</summary>
    void Keep(Patient patient, EarAnswers answers, int[] classes, int level)
    {
        var known = new Known([.. patient.Values.Select(v => v ?? -1)]);
        var other = _general.LevelOfAsync(known).AsTask().GetAwaiter().GetResult();
        if (other != level)
            throw new InvalidOperationException($"The two engines disagree: {level} and {other}.");
        _patients.Add((classes, [answers], known));
    }

    (int[] Classes, ImmutableArray<EarAnswers> Ears, Known Known) Next() => _patients[_next = (_next + 1) % Patients];
}
