using EarHelp.Triage.Answers;
using EarHelp.Triage.Diagrams;

namespace EarHelp.Triage.Assessments;

/// <summary>Answers about one ear as classes of values, for the diagrams.</summary>
static class KnownClasses
{
    /// <summary>By fact, a bit for each class that may be true; 0: not asked.</summary>
    public static void Fill(DialogDiagrams diagrams, EarAnswers ear, Span<ulong> known)
    {
        for (var fact = 0; fact < known.Length; fact++)
        {
            // A fact that does not apply has no say, whatever its value: that is shown by leaving every value possible.
            known[fact] = ear.OfFact[fact] switch
            {
                Answer.Asked asked => diagrams.Classes[fact].MaskOf(asked.MayBe),
                Answer.NotApplicable => diagrams.Classes[fact].AllMask,
                _ => 0,
            };
        }
    }
}
