using System.Collections.Immutable;
using EarHelp.Content.Dialogs;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;

namespace EarHelp.Content.Words;

/// <summary>Reads an emergency that may be typed at any time.</summary>
static class SignpostReader
{
    static readonly string[] Labels = ["Said as", "Fact"];

    public static Signpost Read(Section section, ConditionReader conditions, ProblemList problems)
    {
        var reader = new ProseReader(section.Page.Source, BlankNames.InAnyText, problems);
        var parts = LabelledParts.Read(section, reader, Labels, "", problems);
        if (parts.LineOf("Said as") is null or "")
            problems.Add(Codes.MissingPart, section.Spot, $"The signpost \"{section.Name}\" has no \"Said as:\".", "Add a paragraph **Said as:** with phrases and commas between.");
        if (parts.Of("").IsEmpty)
            problems.Add(Codes.MissingPart, section.Spot, $"The signpost \"{section.Name}\" has no text to show.", "Add a paragraph below its labels.");
        return new Signpost(section.Name, SaidAs.Read(parts.LineOf("Said as") ?? ""), ReadClaims(parts, conditions), parts.Of(""), section.Spot);
    }

    static ImmutableArray<Condition> ReadClaims(LabelledParts parts, ConditionReader conditions)
    {
        if (parts.LineOf("Fact") is not { Length: > 0 } written)
            return [];
        var spot = parts.Of("Fact").Spot;
        return conditions.ReadList(new PageCell(written, 0, spot));
    }
}
