using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Cli.Assessing;

/// <summary>Which conditions speak of an ear, and which of the person only.</summary>
public sealed class AboutEar
{
    readonly Dialog _dialog;
    readonly ImmutableArray<bool> _named;

    public AboutEar(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        _dialog = dialog;
        _named = [];
        foreach (var named in dialog.NamedFacts)
            _named = _named.Add(named.Rows.Any(r => IsSo(r.Conditions)));
    }

    public bool IsSo(IEnumerable<Condition> conditions) =>
        conditions.Any(c => c.Of.IsNamedFact ? _named[c.Of.Index] : _dialog.Facts[c.Of.Index].About == About.Ear);
}
