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
    readonly Dialog _dialog;
    readonly DialogDiagrams _diagrams;
    readonly int[] _screenOf;
    readonly FactBits[] _factsOf;
    readonly FactBits _earFacts;
    readonly int? _earsAffected;
    readonly ImmutableArray<int> _form;

    public ScreenChoice(Dialog dialog, DialogDiagrams diagrams)
    {
        (_dialog, _diagrams) = (dialog, diagrams);
        _screenOf = new int[dialog.Facts.Length];
        foreach (var screen in dialog.Screens)
        {
            foreach (var fact in screen.Facts)
                _screenOf[fact] = screen.Index;
        }

        _factsOf = [.. dialog.Screens.Select(s => Bits(s.Facts))];
        _earFacts = Bits(dialog.Facts.Where(f => f.About == About.Ear).Select(f => f.Index));
        _earsAffected = dialog.FindFact(KnownFacts.EarsAffected)?.Index;
        _form = [.. dialog.Facts.Where(f => f.AskIn == AskIn.Form).Select(f => f.Index)];
    }

    public ScreenToAsk? Next(ImmutableArray<EarAnswers> ears, Restriction restriction)
    {
        var form = _form.Where(f => ears[0].OfFact[f] is Answer.NotAsked).ToImmutableArray();
        if (!form.IsEmpty)
            return new ScreenToAsk(ScreenToAsk.FormScreen, QuestionKind.Form, null, form);

        int? earOpen = _earsAffected is { } which && ears[0].OfFact[which] is Answer.NotAsked ? which : null;
        var found = new List<FirstScreen>(ears.Length);
        foreach (var ear in ears)
        {
            if (FirstIn(ear, restriction, earOpen) is not { } first)
                return null;
            found.Add(first);
        }

        var screen = found.Min(f => f.Screen);
        if (earOpen is { } open && screen >= _screenOf[open] && found.Any(f => f.HasEarFact))
        {
            screen = _screenOf[open];
            found[0].Matters[open] = true;
            found[0] = found[0] with { Screen = screen };
        }

        return screen == int.MaxValue ? null : Make(_dialog.Screens[screen], ears, found, found.FindIndex(f => f.Screen == screen));
    }

    static FactBits Bits(IEnumerable<int> facts) => facts.Aggregate(FactBits.None, (bits, fact) => bits | FactBits.Of(fact));

    static ScreenToAsk Make(Screen screen, ImmutableArray<EarAnswers> ears, List<FirstScreen> found, int ear)
    {
        var facts = screen.Facts.Where(f => screen.About == About.Ear ? found[ear].Matters[f] : found.Any(x => x.Matters[f])).ToImmutableArray();
        return new ScreenToAsk(
            screen.Id,
            screen.IsChecklist ? QuestionKind.Checklist : QuestionKind.OneFact,
            screen.About == About.Ear ? ears[ear].Ear : null,
            facts);
    }

    /// <summary>Null if the most urgent level is certain, or the answers cannot stand together: then nothing more is asked.</summary>
    /// <param name="earOpen">Which ears are affected, while that is not asked: it matters as soon as any fact about an ear does.</param>
    FirstScreen? FirstIn(EarAnswers ear, Restriction restriction, int? earOpen)
    {
        Span<ulong> known = stackalloc ulong[_diagrams.Arity.Length];
        KnownClasses.Fill(_diagrams, ear, known);
        restriction.Begin(known);
        var matters = new bool[_dialog.Facts.Length];
        if (_diagrams.RootsUnder(restriction) is not { } roots)
            return new FirstScreen(int.MaxValue, matters, false);
        if (restriction.EndOf(restriction.Of(roots.Level, Merge.Least)) == Terminal.Of(0))
            return null;

        var open = roots.Deciding(restriction);
        var facts = open.Aggregate(FactBits.None, (all, root) => all | restriction.ReachOf(root).Facts);
        foreach (var screen in _dialog.Screens)
        {
            if ((_factsOf[screen.Index] & facts).IsEmpty)
                continue;
            restriction.Mattering.Mark(open, _factsOf[screen.Index], matters);
            if (screen.Facts.Any(f => matters[f]))
                return new FirstScreen(screen.Index, matters, earOpen is { } e && screen.Index >= _screenOf[e] && HasEarFact(open, matters, restriction));
        }

        foreach (var root in open.Where(r => !restriction.IsSettled(r)))
            restriction.Mattering.MarkLeft(root, matters);
        var first = Enumerable.Range(0, matters.Length).Where(f => matters[f]).Select(f => _screenOf[f]).DefaultIfEmpty(int.MaxValue).Min();
        return new FirstScreen(first, matters, IsEarFactMarked(matters));
    }

    bool HasEarFact(List<int> open, bool[] matters, Restriction restriction)
    {
        if (IsEarFactMarked(matters))
            return true;
        var more = new bool[matters.Length];
        restriction.Mattering.Mark(open, _earFacts, more);
        return IsEarFactMarked(more);
    }

    bool IsEarFactMarked(bool[] matters) => _dialog.Facts.Any(f => matters[f.Index] && f.About == About.Ear);

    /// <param name="Screen">The first screen of which an answer matters; <see cref="int.MaxValue"/>: none.</param>
    /// <param name="Matters">By fact, for the facts of that screen and of all before it.</param>
    /// <param name="HasEarFact">Some fact about the ear matters; only said if it is open which ears are affected.</param>
    sealed record FirstScreen(int Screen, bool[] Matters, bool HasEarFact);
}
