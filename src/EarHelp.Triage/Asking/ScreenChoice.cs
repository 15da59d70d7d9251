using System.Collections.Immutable;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Triage.Asking;

/// <summary>Chooses the next question: the form, then the first screen of which an answer can still change the result.</summary>
sealed class ScreenChoice
{
    /// <summary>The fact that says which ears are spoken about; known to the program.</summary>
    public const string EarsAffected = "ears affected";

    readonly Dialog _dialog;
    readonly DialogDiagrams _diagrams;
    readonly int[] _screenOf;
    readonly int? _earsAffected;
    readonly ImmutableArray<int> _form;
    readonly bool _isInFactOrder;

    public ScreenChoice(Dialog dialog, DialogDiagrams diagrams)
    {
        (_dialog, _diagrams) = (dialog, diagrams);
        _screenOf = new int[dialog.Facts.Length];
        foreach (var screen in dialog.Screens)
        {
            foreach (var fact in screen.Facts)
                _screenOf[fact] = screen.Index;
        }

        _isInFactOrder = _screenOf.SequenceEqual(_screenOf.Order());
        _earsAffected = dialog.FindFact(EarsAffected)?.Index;
        _form = [.. dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.Index)];
    }

    public ScreenToAsk? Next(ImmutableArray<EarAnswers> ears, Restriction restriction)
    {
        var form = _form.Where(f => ears[0].OfFact[f] is Answer.NotAsked).ToImmutableArray();
        if (!form.IsEmpty)
            return new ScreenToAsk(ScreenToAsk.FormScreen, QuestionKind.Form, null, form);

        var matters = new bool[ears.Length][];
        for (var i = 0; i < ears.Length; i++)
        {
            if (MatteringIn(ears[i], restriction) is not { } found)
                return null;
            matters[i] = found;
        }

        MarkEarsAffected(ears, matters);
        ScreenToAsk? first = null;
        var firstIndex = int.MaxValue;
        for (var i = 0; i < ears.Length; i++)
        {
            for (var fact = 0; fact < _screenOf.Length; fact++)
            {
                if (matters[i][fact] && _screenOf[fact] < firstIndex)
                {
                    firstIndex = _screenOf[fact];
                    first = Make(_dialog.Screens[firstIndex], ears, matters, i);
                }
            }
        }

        return first;
    }

    static ScreenToAsk Make(Screen screen, ImmutableArray<EarAnswers> ears, bool[][] matters, int ear)
    {
        var facts = screen.Facts.Where(f => screen.About == About.Ear ? matters[ear][f] : matters.Any(m => m[f])).ToImmutableArray();
        return new ScreenToAsk(
            screen.Id,
            screen.IsChecklist ? QuestionKind.Checklist : QuestionKind.OneFact,
            screen.About == About.Ear ? ears[ear].Ear : null,
            facts);
    }

    /// <summary>By fact, or null if the most urgent level is certain: then nothing more is asked.</summary>
    bool[]? MatteringIn(EarAnswers ear, Restriction restriction)
    {
        Span<ulong> known = stackalloc ulong[_diagrams.Arity.Length];
        KnownClasses.Fill(_diagrams, ear, known);
        restriction.Begin(known);
        if (restriction.IsAlways(restriction.Of(_diagrams.Roots.Level, Merge.Least), Terminal.Of(0)))
            return null;

        var matters = new bool[_dialog.Facts.Length];
        var roots = DecidingRoots.Of(_dialog, _diagrams.Roots, restriction);
        var last = LastFactWorthLooking(roots, ear, restriction);
        foreach (var root in roots)
            restriction.MarkMattering(root, matters, last);
        if (!matters.Contains(true))
        {
            foreach (var root in roots.Where(r => !restriction.IsSettled(r)))
                restriction.MarkLeft(root, matters);
        }

        return matters;
    }

    /// <summary>
    /// A reduced root speaks first of a fact that matters, so nothing after that fact's screen need be looked at; unless some answers
    /// are impossible, or it is still open which ears are spoken about and that would be asked first.
    /// </summary>
    int LastFactWorthLooking(List<int> roots, EarAnswers ear, Restriction restriction)
    {
        if (_diagrams.Roots.Possible != Terminal.True || roots.Count == 0 || !_isInFactOrder)
            return int.MaxValue;
        var first = roots.Min(restriction.FirstFactOf);
        var isEarOpen = _earsAffected is { } e && ear.OfFact[e] is Answer.NotAsked && _screenOf[first] >= _screenOf[e];
        return isEarOpen ? int.MaxValue : _dialog.Screens[_screenOf[first]].Facts.Max();
    }

    /// <summary>Which ears are affected matters as soon as any fact about an ear does.</summary>
    void MarkEarsAffected(ImmutableArray<EarAnswers> ears, bool[][] matters)
    {
        if (_earsAffected is not { } index || ears[0].OfFact[index] is not Answer.NotAsked)
            return;
        matters[0][index] |= _dialog.Facts.Any(f => f.About == About.Ear && matters.Any(m => m[f.Index]));
    }
}
