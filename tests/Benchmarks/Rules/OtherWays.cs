using System.Diagnostics;
using EarHelp.Proof.Tests.SecondOpinion;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Tests.Randomly;

namespace Benchmarks.Rules;

/// <summary>What a constraint solver and plain enumeration take for what the proof shows.</summary>
static class OtherWays
{
    /// <summary>Whether every row, level and item is reached and whether a worse answer makes anybody less urgent; the solver cannot count.</summary>
    public static TimeSpan AskSolver(Dialog dialog)
    {
        var from = Stopwatch.GetTimestamp();
        var solver = new Solver(dialog);
        foreach (var rule in dialog.Rules)
            solver.Finds(solver.Patient.Matches(rule));
        foreach (var level in dialog.Levels)
            solver.Finds(solver.Patient.IsAtLeastAsUrgentAs(level.Rank));
        foreach (var item in dialog.Advice)
            solver.Finds(solver.Patient.IsShown(item));
        Solver.FindsFall(dialog, dialog.Facts);
        return Stopwatch.GetElapsedTime(from);
    }

    /// <summary>Reading the tables for one patient after another, of so many drawn ones.</summary>
    public static TimeSpan ReadEach(Dialog dialog, int patients)
    {
        var chance = new Random(7);
        var reading = new PlainReading(dialog);
        var from = Stopwatch.GetTimestamp();
        for (var i = 0; i < patients; i++)
        {
            int[] patient = [.. dialog.Facts.Select(f => chance.Next(f.Values.Count))];
            if (reading.IsPossible(patient))
                reading.Read(patient);
        }

        return Stopwatch.GetElapsedTime(from);
    }

    /// <summary>Every possible patient of a small dialog, found and read one after another.</summary>
    public static int CountEach(Dialog dialog)
    {
        var counted = new CountedPatients(dialog);
        foreach (var patient in counted.Possible)
            counted.Reading.Read(patient);
        return counted.Possible.Length;
    }
}
