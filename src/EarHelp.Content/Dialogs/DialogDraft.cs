using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Dialogs;

/// <summary>What is known of a dialog while its tables are read, one kind after another.</summary>
sealed class DialogDraft(ImmutableArray<Page> pages, ProblemList problems)
{
    public ImmutableArray<Page> Pages { get; } = pages;

    public ProblemList Problems { get; } = problems;

    public Dictionary<string, Level> Levels { get; } = new(StringComparer.Ordinal);

    public Dictionary<string, Destination> Destinations { get; } = new(StringComparer.Ordinal);

    public Dictionary<string, Source> Sources { get; } = new(StringComparer.Ordinal);

    public HashSet<string> UsedSources { get; } = new(StringComparer.Ordinal);

    public List<Fact> Facts { get; } = [];

    /// <summary>Facts by the name that conditions use.</summary>
    public Dictionary<string, int> FactByDecidingName { get; } = new(StringComparer.Ordinal);

    public List<NamedFact> NamedFacts { get; } = [];

    public Dictionary<string, int> NamedFactByName { get; } = new(StringComparer.Ordinal);

    public List<Screen> Screens { get; } = [];

    public List<Rule> Rules { get; } = [];

    public List<TreatRule> TreatRules { get; } = [];

    public Dictionary<string, AdviceItem> Advice { get; } = new(StringComparer.Ordinal);

    public Dictionary<string, Explanation> Explanations { get; } = new(StringComparer.Ordinal);

    public List<ImpossiblePair> Impossible { get; } = [];

    public IEnumerable<string> NamesForConditions => FactByDecidingName.Keys.Concat(NamedFactByName.Keys);

    /// <summary>The fact or named fact of this name, with its values.</summary>
    public (FactReference Of, FactValues Values)? Find(string name) =>
        FactByDecidingName.TryGetValue(name, out var fact) ? (new FactReference(false, fact), Facts[fact].Values)
        : NamedFactByName.TryGetValue(name, out var named) ? (new FactReference(true, named), NamedFacts[named].Values)
        : null;
}
