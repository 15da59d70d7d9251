using System.Collections.Immutable;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Patients;

/// <summary>The value that each fact has in an example unless another is needed: the clear one, else the mildest, else a middling one.</summary>
sealed class OrdinaryValues
{
    readonly Dialog _dialog;
    readonly ImmutableArray<ValueClasses> _classes;
    readonly ImmutableArray<int> _anchors;

    public OrdinaryValues(Dialog dialog, ImmutableArray<ValueClasses> classes)
    {
        (_dialog, _classes) = (dialog, classes);
        _anchors = [.. dialog.Facts.Select(Anchor)];
        Class = [.. dialog.Facts.Select(f => classes[f.Index].ClassOf(Ordinary(f)))];
    }

    /// <summary>By fact, the class of its ordinary value.</summary>
    public ImmutableArray<int> Class { get; }

    /// <summary>The member of a class that an example takes: the clear value, else the one nearest to the bounds that the tables use.</summary>
    public int MemberOf(Fact fact, int valueClass)
    {
        var members = _classes[fact.Index].Members[valueClass];
        if (fact.Clear is { } clear && members.Contains(clear))
            return clear;
        var anchor = _anchors[fact.Index];
        var nearest = members.Least;
        foreach (var range in members.Ranges)
        {
            var within = Math.Clamp(anchor, range.First, range.Last);
            if (Math.Abs(within - anchor) < Math.Abs(nearest - anchor))
                nearest = within;
        }

        return nearest;
    }

    /// <summary>How far a class is from the ordinary one; facts without a clear value hardly count.</summary>
    public int CostOf(int fact, int valueClass)
    {
        const int Departure = 100;
        return valueClass == Class[fact] ? 0 : _dialog.Facts[fact].Clear is null ? 1 : Departure;
    }

    int Ordinary(Fact fact) => fact.Clear ?? fact.Worse switch
    {
        Worse.Towards { Higher: true } => 0,
        Worse.Towards => fact.Values.Count - 1,
        _ => fact.Values is FactValues.Numbers ? _anchors[fact.Index] : 0,
    };

    /// <summary>The middle of the bounds that the tables use, or of all values if they use none.</summary>
    int Anchor(Fact fact)
    {
        if (fact.Values is not FactValues.Numbers)
            return 0;
        var bounds = _classes[fact.Index].Members.SelectMany(m => m.Ranges).Select(r => r.First).Where(b => b > 0).ToArray();
        return bounds.Length == 0 ? fact.Values.Count / 2 : bounds.Min() + ((bounds.Max() - bounds.Min()) / 2);
    }
}
