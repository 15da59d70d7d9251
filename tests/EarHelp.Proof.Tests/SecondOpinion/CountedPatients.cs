using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Tests.Randomly;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>Every possible patient of a small dialog, found by plain counting. A fact that does not apply stands at its first value.</summary>
sealed class CountedPatients
{
    readonly Dialog _dialog;

    public CountedPatients(Dialog dialog)
    {
        _dialog = dialog;
        Reading = new PlainReading(dialog);
        Assignments = [.. AllPatients.Completions(dialog, [.. dialog.Facts.Select(_ => Answer.Unknown)])];
        Possible = [.. Assignments.Where(a => Reading.IsPossible(a) && IsPatient(a))];
    }

    public PlainReading Reading { get; }

    /// <summary>Every value for every fact, applying or not, possible or not.</summary>
    public int[][] Assignments { get; }

    /// <summary>Every possible patient once.</summary>
    public int[][] Possible { get; }

    public bool Applies(int fact, int[] patient) => _dialog.Facts[fact].AppliesWhen.All(c => Reading.Holds(c, patient));

    /// <summary>The values of the facts that apply, of facts that do not the first.</summary>
    public string KeyOf(int[] assignment) =>
        string.Join(',', assignment.Select((value, fact) => Applies(fact, assignment) ? value : 0));

    bool IsPatient(int[] assignment) => _dialog.Facts.All(f => assignment[f.Index] == 0 || Applies(f.Index, assignment));
}
