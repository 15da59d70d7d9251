using System.Collections.Immutable;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Proof.Properties;

/// <summary>
/// Which screens are asked, as diagrams over the answers before each. A screen is asked of those for whom, by the answers up to it, one
/// of its facts still decides something and the most urgent level is not certain. Where some answers are impossible together, and where
/// a person is unsure, no screen is asked that is not in these sets: they are a proven upper bound.
/// </summary>
sealed class Asking
{
    readonly ProofSpace _space;
    readonly ImmutableArray<int> _roots;
    readonly int?[] _asked;

    public Asking(ProofSpace space)
    {
        _space = space;
        _roots = [.. new[] { space.Roots.Level, space.Roots.Urgency, space.Roots.Treat }.Concat(space.Roots.Advice).Concat(space.Roots.Warnings).Where(r => !Terminal.Is(r)).Distinct()];
        Screens = [.. space.Dialog.Screens.Where(s => s.AskIn != AskIn.Form && s.Facts.Length > 0).OrderBy(s => s.Facts.Min())];
        _asked = new int?[Screens.Length];
    }

    /// <summary>In asking order, without the form.</summary>
    public ImmutableArray<Screen> Screens { get; }

    /// <summary>By the screen's place among <see cref="Screens"/>, who is asked it.</summary>
    public int AskedOf(int screen) =>
        _asked[screen] ??= _space.Without(_space.Any(OpenBefore(Screens[screen])), UrgentBefore(Screens[screen]));

    /// <summary>The same without putting all of them together: one open decision is enough.</summary>
    public bool IsAskedOfAnybody(int screen)
    {
        if (_asked[screen] is { } known)
            return _space.And(_space.Possible, known) != Terminal.False;
        var mayBeAsked = _space.Without(_space.Possible, UrgentBefore(Screens[screen]));
        return OpenBefore(Screens[screen]).Any(open => _space.And(mayBeAsked, open) != Terminal.False);
    }

    /// <summary>The number of screens that each patient of a set is asked, as a diagram; who is not in the set is impossible in it.</summary>
    public int NumberFor(int set)
    {
        var number = _space.Builder.Choose(set, Terminal.Of(0), Terminal.Impossible);
        return Enumerable.Range(0, Screens.Length).Select(AskedOf).Aggregate(number, (sum, asked) => _space.Builder.Choose(asked, _space.Builder.Exchange(sum, t => t - 1), sum));
    }

    /// <summary>By decision, who may still get more than one result, by the answers before a screen, depending on what it asks.</summary>
    IEnumerable<int> OpenBefore(Screen screen)
    {
        var first = screen.Facts.Min();
        var facts = screen.Facts.ToHashSet();

        // Which ear is meant is asked as soon as anything about an ear matters.
        if (facts.Contains(EarsAffected))
            facts.UnionWith(_space.Dialog.Facts.Where(f => f.About == About.Ear).Select(f => f.Index));
        return _roots.Select(r => Cut(r, first, node => SpeaksOf(node, facts)));
    }

    /// <summary>Whose level is certain to be the most urgent by the answers before a screen.</summary>
    int UrgentBefore(Screen screen) => Cut(_space.Roots.Level, screen.Facts.Min(), node => node == Terminal.Of(0));

    int EarsAffected => _space.Dialog.FindFact(KnownFacts.EarsAffected)?.Index ?? -1;

    /// <summary>The diagram over the facts before one, true where what is then left of the root is as asked.</summary>
    int Cut(int root, int fact, Func<int, bool> left)
    {
        var done = new Dictionary<int, int>();
        return Walk(root);

        int Walk(int at)
        {
            if (at == Terminal.Impossible)
                return Terminal.False;
            if (Terminal.Is(at) || _space.Builder.Nodes.VariableOf(at) >= fact)
                return left(at) ? Terminal.True : Terminal.False;
            if (done.TryGetValue(at, out var known))
                return known;
            var variable = _space.Builder.Nodes.VariableOf(at);
            Span<int> children = stackalloc int[_space.Classes[variable].Count];
            for (var i = 0; i < children.Length; i++)
                children[i] = Walk(_space.Builder.Nodes.ChildOf(at, i));
            return done[at] = _space.Builder.Make(variable, children);
        }
    }

    bool SpeaksOf(int root, HashSet<int> facts)
    {
        var seen = new HashSet<int>();
        var last = facts.Max();
        return Walk(root);

        bool Walk(int at)
        {
            if (Terminal.Is(at) || _space.Builder.Nodes.VariableOf(at) > last || !seen.Add(at))
                return false;
            if (facts.Contains(_space.Builder.Nodes.VariableOf(at)))
                return true;
            foreach (var child in _space.Builder.Nodes.ChildrenOf(at))
            {
                if (Walk(child))
                    return true;
            }

            return false;
        }
    }
}
