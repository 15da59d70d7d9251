using EarHelp.Triage.Assessments;
using EarHelp.Triage.Editions;

namespace EarHelp.Content.Examples;

/// <summary>What an example must give, and what it gives, for its author.</summary>
sealed class ExampleWords(Dialog dialog, Assessment result)
{
    const int OpenFactsNamed = 5;

    public string Wanted(Expected expected) => expected switch
    {
        Expected.Level level => $"the level must be \"{LevelName(level.Rank)}\"",
        Expected.FirstPlace place => $"the first place must be \"{dialog.Destinations[place.Destination].Id}\"",
        Expected.AdviceShown shown => $"the advice \"{dialog.Advice[shown.Item].Id}\" must be shown",
        Expected.AdviceNotShown hidden => $"the advice \"{dialog.Advice[hidden.Item].Id}\" must not be shown",
        Expected.ShutBy shut => $"the answer to \"{shut.Fact}\" must shut the advice \"{dialog.Advice[shut.Item].Id}\"",
        Expected.Warning warning => $"the warning \"{warning.Name}\" must be given",
        Expected.WarningNotGiven warning => $"the warning \"{warning.Name}\" must not be given",
        Expected.MayTreat { Hold: { } hold } => $"the clinic may treat must be \"not until {hold}\"",
        Expected.MayTreat => "the clinic may treat must be \"yes\"",
        Expected.DecidedBy by => $"the row \"{dialog.Rules[by.Rule].Id}\" must give the level",
        Expected.DecidedByMissing by => $"the row \"{by.Rule}\" must give the level",
        Expected.ExplanationShown shown => $"the explanation \"{dialog.Explanations[shown.Explanation].Id}\" must be shown",
        Expected.ExplanationNotShown hidden => $"the explanation \"{dialog.Explanations[hidden.Explanation].Id}\" must not be shown",
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public string Came(Expected expected) => expected switch
    {
        Expected.Level => result.Level is { } rank ? $"it comes out as \"{LevelName(rank)}\"{ByRules()}" : StillOpen(),
        Expected.FirstPlace => $"the places are {List(result.Destinations.Select(d => dialog.Destinations[d].Id))}",
        Expected.AdviceShown => $"shown are {List(result.Advice.Select(a => dialog.Advice[a.Item].Id))}",
        Expected.AdviceNotShown or Expected.ExplanationNotShown => "it is shown",
        Expected.ShutBy => "no \"never if\" of the item says so",
        Expected.Warning => $"the warnings are {List(result.Warnings)}",
        Expected.WarningNotGiven => "it is given",
        Expected.MayTreat => result.MayTreat is { } treat ? treat.Hold is { } hold ? $"it is \"not until {hold}\"" : "it is \"yes\"" : "it is not settled",
        Expected.DecidedBy or Expected.DecidedByMissing => result.Level is { } rank ? $"it comes out as \"{LevelName(rank)}\"{ByRules()}" : StillOpen(),
        Expected.ExplanationShown => $"shown are {List(result.Explanations.Select(e => dialog.Explanations[e].Id))}",
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    string LevelName(int rank) => dialog.Levels[rank].Id;

    string ByRules() => result.Rules.Any(r => r.Decides) ? $" by {List(result.Rules.Where(r => r.Decides).Select(r => dialog.Rules[r.Rule].Id))}" : "";

    string StillOpen()
    {
        var open = result.Open.Select(o => dialog.Facts[o.Fact].DecidingId).Distinct().ToList();
        var more = open.Count > OpenFactsNamed ? $" and {open.Count - OpenFactsNamed} more" : "";
        return $"it may still be anything from \"{LevelName(result.AtMost)}\" to \"{LevelName(result.AtLeast)}\", with {List(open.Take(OpenFactsNamed))}{more} not answered";
    }

    static string List(IEnumerable<string> names)
    {
        var all = names.Distinct().ToList();
        return all.Count == 0 ? "none" : string.Join(", ", all.Select(n => $"\"{n}\""));
    }
}
