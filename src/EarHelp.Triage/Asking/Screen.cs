using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Triage.Asking;

/// <summary>One question: a fact of its own, or a checklist of several yes/no facts.</summary>
/// <param name="Index">Place in the asking order, from 0.</param>
/// <param name="Facts">Indexes of the facts it asks, in order.</param>
public sealed record Screen(int Index, string Id, ImmutableArray<int> Facts, AskIn AskIn, About About, SourceSpot Spot)
{
    public bool IsChecklist => Facts.Length > 1;
}
