using System.Numerics;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Triage.Assessments;

/// <summary>Answers about one ear as classes of values, for the diagrams.</summary>
static class KnownClasses
{
    /// <summary>By fact, a bit for each class that may be true; 0: not asked.</summary>
    /// <returns>True if every fact that applies was asked and its answer is one class.</returns>
    public static bool Fill(DialogDiagrams diagrams, EarAnswers ear, Span<ulong> known)
    {
        var isSure = true;
        for (var fact = 0; fact < known.Length; fact++)
        {
            // A fact that does not apply has no say, whatever its value: that is shown by leaving every value possible.
            var classes = diagrams.Classes[fact];
            if (ear.OfFact[fact] is Answer.NotApplicable)
            {
                known[fact] = classes.AllMask;
                continue;
            }

            known[fact] = ear.OfFact[fact] is Answer.Asked asked ? classes.MaskOf(asked.MayBe) : 0;
            isSure &= BitOperations.IsPow2(known[fact]);
        }

        return isSure;
    }
}
