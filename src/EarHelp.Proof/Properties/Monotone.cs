using EarHelp.Proof.Findings;
using EarHelp.Proof.Patients;
using EarHelp.Proof.Spaces;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Properties;

/// <summary>
/// After a worse answer the level is never lower, whatever the facts that then start to apply turn out to be. A fact that does not
/// apply has no say, so that comparing answer by answer covers every value that it could take.
/// </summary>
sealed class Monotone(ProofContext proof)
{
    readonly ProofSpace _space = proof.Space;
    readonly HashSet<(int Before, int After)> _seen = [];

    public IEnumerable<Finding> Findings()
    {
        foreach (var fact in proof.Dialog.Facts)
        {
            if (fact.Worse is not Worse.Towards { Higher: var isHigher })
                continue;
            var broken = WorseMoves(fact, isHigher).Where(m => Falls(fact.Index, m.From, m.To)).Take(1);
            foreach (var (from, to) in broken)
                yield return Tell(fact, from, to, isHigher);
        }
    }

    /// <summary>Pairs of classes of which some value of the second is worse than some value of the first.</summary>
    IEnumerable<(int From, int To)> WorseMoves(Fact fact, bool isHigher)
    {
        var members = _space.Classes[fact.Index].Members;
        return
            from a in Enumerable.Range(0, members.Length)
            from b in Enumerable.Range(0, members.Length)
            where a != b && (isHigher ? members[b].Greatest > members[a].Least : members[b].Least < members[a].Greatest)
            select (a, b);
    }

    bool Falls(int fact, int from, int to)
    {
        _seen.Clear();
        return Some(_space.Roots.Level, _space.Roots.Level);

        bool Some(int before, int after)
        {
            if (Terminal.Is(before) && Terminal.Is(after))
                return IsLower(before, after);
            var variable = Math.Min(Top(before), Top(after));
            if ((before == after && variable > fact) || !_seen.Add((before, after)))
                return false;
            if (before == after && variable == fact)
                return Some(_space.Builder.Nodes.ChildOf(before, from), _space.Builder.Nodes.ChildOf(after, to));
            for (var i = 0; i < _space.Classes[variable].Count; i++)
            {
                if (Some(Child(before, variable, variable == fact ? from : i), Child(after, variable, variable == fact ? to : i)))
                    return true;
            }

            return false;
        }
    }

    LessUrgentThoughWorse Tell(Fact fact, int from, int to, bool isHigher)
    {
        var falling = Forgotten(_space.And(_space.Builder.Literal(fact.Index, 1UL << from), FallingSet(fact.Index, from, to)));
        var (classes, asked) = proof.Smallest.PathIn(falling);

        // The facts that only apply afterwards are chosen again, so that the second half of the example shows the fall.
        var shown = _space.And(FallingSet(fact.Index, from, to), SameAs(fact, classes));
        var (after, afterAsked) = proof.Smallest.PathIn(_space.And(shown, _space.Builder.Literal(fact.Index, 1UL << to)));
        var (milder, worse) = Values(fact, from, to, isHigher);
        asked[fact.Index] = afterAsked[fact.Index] = true;
        var before = Terminal.ValueOf(_space.EndOf(_space.Roots.Level, classes));
        var then = Terminal.ValueOf(_space.EndOf(_space.Roots.Level, after));
        return new LessUrgentThoughWorse(
            fact.DecidingId,
            fact.Values.NameOf(milder),
            fact.Values.NameOf(worse),
            proof.Dialog.Levels[before].Id,
            proof.Dialog.Levels[then].Id,
            proof.Smallest.Told(after, afterAsked, exactly: (fact.Index, worse)),
            [.. proof.RowDeciding(classes), .. proof.RowDeciding(after), fact.Spot],
            proof.Smallest.Told(classes, asked, exactly: (fact.Index, milder)),
            CountOf(falling, fact, from, to, isHigher));
    }

    /// <summary>Two values of the classes of which the second is worse.</summary>
    (int Milder, int Worse) Values(Fact fact, int from, int to, bool isHigher)
    {
        var (before, after) = (_space.Classes[fact.Index].Members[from], _space.Classes[fact.Index].Members[to]);
        var ordinary = new OrdinaryValues(proof.Dialog, _space.Classes);
        var (milder, worse) = (ordinary.MemberOf(fact, from), ordinary.MemberOf(fact, to));
        return (worse > milder) == isHigher ? (milder, worse) : isHigher ? (before.Least, after.Greatest) : (before.Greatest, after.Least);
    }

    /// <summary>Of a class whose values lie on both sides of the worse ones, only those on the milder side count.</summary>
    System.Numerics.BigInteger CountOf(int falling, Fact fact, int from, int to, bool isHigher)
    {
        var (before, after) = (_space.Classes[fact.Index].Members[from], _space.Classes[fact.Index].Members[to]);
        var milder = before.Intersect(isHigher ? ValueSet.Between(0, after.Greatest - 1) : ValueSet.Between(after.Least + 1, fact.Values.Count - 1));
        return proof.Count(falling) / before.Count * milder.Count;
    }

    /// <summary>Patients, the fact's own value left out, whom the move makes less urgent.</summary>
    int FallingSet(int fact, int from, int to)
    {
        var done = new Dictionary<(int, int), int>();
        return Walk(_space.Fix(_space.Roots.Level, fact, from), _space.Fix(_space.Roots.Level, fact, to));

        int Walk(int before, int after)
        {
            if (before == after)
                return Terminal.False;
            if (Terminal.Is(before) && Terminal.Is(after))
                return IsLower(before, after) ? Terminal.True : Terminal.False;
            if (done.TryGetValue((before, after), out var known))
                return known;
            var variable = Math.Min(Top(before), Top(after));
            Span<int> children = stackalloc int[_space.Classes[variable].Count];
            for (var i = 0; i < children.Length; i++)
                children[i] = Walk(Child(before, variable, i), Child(after, variable, i));
            return done[(before, after)] = _space.Builder.Make(variable, children);
        }
    }

    /// <summary>The set with the values forgotten of facts that do not apply before the move: those who can come to fall.</summary>
    int Forgotten(int set)
    {
        foreach (var gated in proof.Dialog.Facts.Where(f => !f.AppliesWhen.IsEmpty).Reverse())
            set = _space.Builder.Choose(_space.Composed.AppliesOf(gated.Index), set, _space.Some(set, gated.Index));
        return set;
    }

    /// <summary>Everybody with the same values of the facts that apply to a patient, one fact left out.</summary>
    int SameAs(Fact moved, int[] classes)
    {
        var same = Terminal.True;
        foreach (var fact in proof.Dialog.Facts.Where(f => f != moved && _space.EndOf(_space.Composed.AppliesOf(f.Index), classes) == Terminal.True).Reverse())
            same = _space.And(_space.Builder.Literal(fact.Index, 1UL << classes[fact.Index]), same);
        return same;
    }

    static bool IsLower(int before, int after) =>
        before != Terminal.Impossible && after != Terminal.Impossible && Terminal.ValueOf(after) > Terminal.ValueOf(before);

    int Top(int node) => Terminal.Is(node) ? int.MaxValue : _space.Builder.Nodes.VariableOf(node);

    int Child(int node, int variable, int valueClass) =>
        Terminal.Is(node) || _space.Builder.Nodes.VariableOf(node) != variable ? node : _space.Builder.Nodes.ChildOf(node, valueClass);
}
