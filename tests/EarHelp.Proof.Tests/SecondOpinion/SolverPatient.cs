using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using Google.OrTools.Sat;
using Google.OrTools.Util;

namespace EarHelp.Proof.Tests.SecondOpinion;

/// <summary>One patient of a dialog as unknowns of a constraint solver: written from the tables, without a look at the diagrams.</summary>
sealed class SolverPatient
{
    readonly CpModel _model;
    readonly Dialog _dialog;
    readonly Dictionary<(bool IsNamed, int Index, ValueSet Values), ILiteral> _conditions = [];
    readonly Dictionary<int, ILiteral[]> _firstRow = [];
    readonly ILiteral[] _matches;

    public SolverPatient(CpModel model, Dialog dialog)
    {
        (_model, _dialog) = (model, dialog);
        Facts = [.. dialog.Facts.Select(f => model.NewIntVar(0, f.Values.Count - 1, f.Id))];
        foreach (var pair in dialog.Impossible)
            model.AddBoolOr([Holds(pair.One).Not(), Holds(pair.Other).Not()]);
        _matches = [.. dialog.Rules.Select(r => r.IsOtherwise ? Never : All(r.Conditions))];
        var foreseen = Some(dialog.Rules.Where(r => r.Level is not null && !r.IsOtherwise).Select(r => _matches[r.Index]));
        foreach (var rule in dialog.Rules.Where(r => r.IsOtherwise))
            _matches[rule.Index] = foreseen.Not();
    }

    /// <summary>The place of each fact's value among its values.</summary>
    public IntVar[] Facts { get; }

    ILiteral Always => _model.TrueLiteral();

    ILiteral Never => _model.FalseLiteral();

    public ILiteral Matches(Rule rule) => _matches[rule.Index];

    /// <summary>The level is at least as urgent as a rank.</summary>
    public ILiteral IsAtLeastAsUrgentAs(int rank) => Some(_dialog.Rules.Where(r => r.Level <= rank).Select(Matches));

    public ILiteral IsShown(AdviceItem item)
    {
        var giving = _dialog.Rules.Where(r => r.Give.Contains(item.Index)).Select(Matches).ToArray();
        var called = giving.Length > 0 && item.OnlyIf.IsEmpty ? Some(giving) : Some([All(item.OnlyIf), .. giving]);
        var forbidden = Some([.. item.NeverIf.Select(Holds), .. _dialog.Rules.Where(r => r.Withhold.Contains(item.Index)).Select(Matches)]);
        return Every([called, forbidden.Not(), item.NotWhile is { } rank ? IsAtLeastAsUrgentAs(rank).Not() : Always]);
    }

    public ILiteral Holds(Condition condition)
    {
        var key = (condition.Of.IsNamedFact, condition.Of.Index, condition.Values);
        if (!_conditions.TryGetValue(key, out var known))
            _conditions[key] = known = condition.Of.IsNamedFact ? IsNamed(condition) : IsFact(condition);
        return known;
    }

    public ILiteral Every(IEnumerable<ILiteral> literals)
    {
        var all = literals.ToArray();
        var every = _model.NewBoolVar("");
        _model.AddBoolAnd(all).OnlyEnforceIf(every);
        _model.AddBoolOr(all.Select(l => l.Not()).Append(every));
        return every;
    }

    public ILiteral Some(IEnumerable<ILiteral> literals) => Every(literals.Select(l => l.Not())).Not();

    public ILiteral All(IEnumerable<Condition> conditions) => Every(conditions.Select(Holds));

    ILiteral IsFact(Condition condition)
    {
        var fact = _dialog.Facts[condition.Of.Index];
        var isValue = _model.NewBoolVar("");
        Tie(fact.Index, condition.Values, isValue);
        Tie(fact.Index, condition.Values.Complement(fact.Values.Count), isValue.Not());
        return Every([isValue, .. fact.AppliesWhen.Select(Holds)]);
    }

    void Tie(int fact, ValueSet values, ILiteral literal)
    {
        if (values.IsEmpty)
            _model.AddBoolOr([literal.Not()]);
        else
            _model.AddLinearExpressionInDomain(Facts[fact], Domain.FromIntervals([.. values.Ranges.Select(r => new long[] { r.First, r.Last })])).OnlyEnforceIf(literal);
    }

    /// <summary>The first row that fits gives the value.</summary>
    ILiteral IsNamed(Condition condition)
    {
        var named = _dialog.NamedFacts[condition.Of.Index];
        if (!_firstRow.TryGetValue(named.Index, out var first))
        {
            var rows = named.Rows.Select(r => All(r.Conditions)).ToArray();
            _firstRow[named.Index] = first = [.. rows.Select((r, i) => Every([r, .. rows.Take(i).Select(e => e.Not())])), Some(rows).Not()];
        }

        return Some(first.Where((_, i) => condition.Values.Contains(i < named.Rows.Length ? named.Rows[i].Value : named.Otherwise ?? named.Rows[^1].Value)));
    }
}
