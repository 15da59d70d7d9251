using System.Collections.Immutable;
using System.Text.Json;
using EarHelp.Content.Patients;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Cli.Assessing;

/// <summary>Reads lines of the form <c>{"id":…,"at":…,"facts":{…}}</c>; all faults of a line are collected.</summary>
public sealed class PatientLineReader(Dialog dialog, DateTimeZone zone, TimeProvider clock)
{
    static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    public ReadLine Read(string line)
    {
        JsonElement root;
        try
        {
            using var document = JsonDocument.Parse(line, Strict);
            root = document.RootElement.Clone();
        }
        catch (JsonException broken)
        {
            return ReadLine.Wrong($"This is not one JSON object: {broken.Message}");
        }

        if (root.ValueKind != JsonValueKind.Object)
            return ReadLine.Wrong("This is not one JSON object.");
        var faults = ImmutableArray.CreateBuilder<string>();
        foreach (var unknown in root.EnumerateObject().Where(p => p.Name is not ("id" or "at" or "facts")))
            faults.Add($"\"{unknown.Name}\" is not known here; a line has \"id\", \"at\" and \"facts\".");
        var at = At(root, faults);
        var given = Given(root, at, faults);
        JsonElement? id = root.TryGetProperty("id", out var written) ? written : null;
        return faults.Count > 0
            ? new ReadLine(null, faults.ToImmutable())
            : new ReadLine(new PatientLine(id, at, given), []);
    }

    Instant At(JsonElement root, ImmutableArray<string>.Builder faults)
    {
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        if (!root.TryGetProperty("at", out var at))
            return now;
        if (at.ValueKind == JsonValueKind.String && WrittenTime.Moment(at.GetString()!, zone) is { } moment)
            return moment;
        faults.Add($"\"at\" is {at.GetRawText()}, which is not a moment such as \"2026-11-20T09:30\" or \"2026-11-20T09:30:00Z\".");
        return now;
    }

    ImmutableArray<GivenValue> Given(JsonElement root, Instant at, ImmutableArray<string>.Builder faults)
    {
        if (!root.TryGetProperty("facts", out var facts) || facts.ValueKind != JsonValueKind.Object)
        {
            faults.Add("\"facts\" is missing or is not an object of facts and values.");
            return [];
        }

        var given = ImmutableArray.CreateBuilder<GivenValue>();
        var values = new WrittenValue(at, zone);
        foreach (var written in facts.EnumerateObject())
        {
            if (dialog.FindFact(written.Name) is not { } fact)
            {
                faults.Add(Unknown(written.Name));
                continue;
            }

            foreach (var (ear, value) in ByEar(written.Value))
            {
                var read = ear is not null && fact.About == About.Person
                    ? ReadValue.Wrong("it is about the person, not about an ear")
                    : values.Read(fact, IsByNumber(fact, written.Name), value);
                if (read.Fault is { } fault)
                    faults.Add($"\"{written.Name}\": {fault}.");
                else if (given.Any(g => g.Fact == fact && (g.Ear is null || ear is null || g.Ear == ear)))
                    faults.Add($"\"{written.Name}\" is given twice, as a date and as the number counted from it.");
                else
                    given.Add(new GivenValue(fact, ear, read.MayBe, read.Earliest));
            }
        }

        return given.ToImmutable();
    }

    string Unknown(string name) =>
        dialog.NamedFacts.Any(f => string.Equals(f.Id, name, StringComparison.Ordinal))
            ? $"\"{name}\" follows from other facts; give those."
            : $"\"{name}\" is not a fact of this edition; \"earhelp facts\" lists them.";

    static bool IsByNumber(Fact fact, string name) =>
        fact.Counted is { } counted && string.Equals(counted.NumberId, name, StringComparison.Ordinal);

    static IEnumerable<(Ear? Ear, JsonElement Value)> ByEar(JsonElement value)
    {
        if (value.ValueKind != JsonValueKind.Object || !value.EnumerateObject().Any(p => p.Name is "left" or "right"))
            return [(null, value)];
        return value.EnumerateObject().Select(p => p.Name switch
        {
            "left" => ((Ear?)Ear.Left, p.Value),
            "right" => (Ear.Right, p.Value),
            _ => ((Ear?)null, value),
        });
    }
}
