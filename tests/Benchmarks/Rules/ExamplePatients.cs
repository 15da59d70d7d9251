using System.Collections.Immutable;
using System.Globalization;
using Benchmarks.Figures;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace Benchmarks.Rules;

/// <summary>The example patients that lie beside the dialogs, as what each would answer when asked.</summary>
static class ExamplePatients
{
    public static List<ImmutableArray<Answer>> Read(Dialog dialog)
    {
        var patients = new List<ImmutableArray<Answer>>();
        foreach (var file in Directory.GetFiles(Path.Combine(Places.Root, "dialogs", "examples"), "*.md").Order(StringComparer.Ordinal))
        {
            foreach (var section in File.ReadAllText(file).Split("\n## ").Skip(1).Where(s => s.Contains("| fact | answer |", StringComparison.Ordinal)))
                patients.Add(AnswersOf(dialog, Patient.Clear(dialog), RowsOf(section)));
        }

        return patients;
    }

    static ImmutableArray<Answer> AnswersOf(Dialog dialog, Answer[] answers, IEnumerable<(string Fact, string Value)> rows)
    {
        foreach (var (name, value) in rows)
        {
            var fact = dialog.FindFact(name) ?? throw new InvalidOperationException($"No fact is named \"{name}\".");
            answers[fact.Index] = new Answer.Asked(ValuesOf(fact.Values, value));
        }

        return [.. answers];
    }

    static IEnumerable<(string Fact, string Value)> RowsOf(string section) => section.Split('\n')
        .SkipWhile(l => l != "| fact | answer |").Skip(2)
        .TakeWhile(l => l.StartsWith('|'))
        .Select(l => l.Split('|', StringSplitOptions.TrimEntries))
        .Select(cells => (cells[1], cells[2]));

    static ValueSet ValuesOf(FactValues values, string written)
    {
        if (values.IndexOf(written) is { } index)
            return ValueSet.Of(index);
        if (values is FactValues.Numbers numbers && written.Trim('[', ']').Split("..") is [var from, var to])
            return numbers.Between(decimal.Parse(from, CultureInfo.InvariantCulture), decimal.Parse(to, CultureInfo.InvariantCulture));
        return values.All;
    }
}
