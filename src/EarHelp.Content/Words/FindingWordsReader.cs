using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Words;

/// <summary>Reads the words of what may be recorded of a visit: what staff tick, and what the patient reads.</summary>
sealed class FindingWordsReader(WordPages pages, ProblemList problems)
{
    const string Form = "Form", Told = "Told";

    public FrozenDictionary<string, FindingWords> Read(ImmutableArray<VisitFinding> findings)
    {
        var keys = new WordKeys<FindingWords>("finding", pages.Language, problems);
        foreach (var section in pages.SectionsOf(WordPages.Findings, problems))
            keys.Add(section.Name, section.Spot, () => ReadOne(section));
        keys.Hold([.. findings.Select(f => (f.Id, f.Spot))]);
        return keys.ToFrozen();
    }

    FindingWords ReadOne(Section section)
    {
        var parts = LabelledParts.Read(section, new ProseReader(section.Page.Source, BlankNames.InAnyText, problems), [Form, Told], null, problems);
        foreach (var missing in new[] { Form, Told }.Where(l => parts.Of(l).IsEmpty))
            problems.Add(Codes.MissingPart, section.Spot, $"The finding \"{section.Name}\" has no \"{missing}:\".", $"Add a paragraph that begins with **{missing}:**.");
        TwinCheck.Report([parts.Of(Told)], section.Spot, problems);
        return new FindingWords(parts.LineOf(Form) ?? section.Name, parts.Of(Told), section.Spot);
    }
}
