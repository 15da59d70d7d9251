using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>Reads a QuestionnaireResponse back as answers.</summary>
public static class ResponseReader
{
    static readonly Ear?[] Ears = [null, Ear.Left, Ear.Right, Ear.Either];

    /// <summary>In the order of the dialog's facts; a fact that no item answers is left out.</summary>
    public static ImmutableArray<AnswerRead> Read(Dialog dialog, QuestionnaireResponse response)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(response);
        var items = response.Item.Concat(response.Item.SelectMany(i => i.Item)).ToLookup(i => i.LinkId, StringComparer.Ordinal);
        return
        [
            .. from fact in dialog.Facts
               from ear in Ears
               let found = items[QuestionnaireWriter.LinkId(fact.Id, ear)].ToImmutableArray()
               where !found.IsEmpty
               select new AnswerRead(fact.Id, ear, Value(found)),
        ];
    }

    static string? Value(ImmutableArray<QuestionnaireResponse.ItemComponent> items)
    {
        var values = items.SelectMany(i => i.Item.Count == 0 ? i.Answer.Select(a => Written(a.Value)) : [Range(i)]).ToList();
        return values.Contains(null) ? null : string.Join(", ", values);
    }

    static string? Range(QuestionnaireResponse.ItemComponent group)
    {
        if (group.Item is not [{ Answer: [{ Value: var from }] }, { Answer: [{ Value: var to }] }])
            return null;
        var (first, last) = (Written(from), Written(to));
        return first == last ? first : $"{first}..{last}";
    }

    /// <summary>Null: not sure.</summary>
    static string? Written(DataType? value) => value switch
    {
        Coding { Code: RecordAddress.NotSure } => null,
        Coding coding => coding.Code,
        FhirDecimal number => number.Value?.ToString(CultureInfo.InvariantCulture),
        Date date => date.Value,
        FhirDateTime moment => moment.Value,
        _ => null,
    };
}

/// <param name="Value">As in a chosen answer; null: not sure.</param>
public sealed record AnswerRead(string Fact, Ear? Ear, string? Value);
