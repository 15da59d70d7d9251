using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace EarHelp.Understanding.Tests.Scoring;

/// <summary>A message that somebody invented, with what it says.</summary>
/// <remarks>
/// That the hearing is as usual counts as a denial, whether its writer lists it as one or as a fact. That the message is about its writer is
/// no fact that it says: most labels leave it out.
/// </remarks>
public sealed record Utterance(
    string Id,
    DateTime At,
    string Text,
    ImmutableArray<Expected> Facts,
    ImmutableArray<string> Denied,
    ImmutableArray<string> Mentioned,
    ImmutableArray<string> Topics,
    string? Signpost)
{
    public static ImmutableArray<Utterance> ReadFile(string path) => [.. File.ReadLines(path).Where(l => l.Length > 0).Select(Read)];

    static Utterance Read(string line)
    {
        using var json = JsonDocument.Parse(line);
        var root = json.RootElement;
        var facts = root.GetProperty("facts").EnumerateArray().Select(f => new Expected(f.GetProperty("fact").GetString()!, f.GetProperty("value").ToString(), EarOf(f))).ToList();
        return new Utterance(
            root.GetProperty("id").GetString()!,
            DateTime.Parse(root.GetProperty("at").GetString()!, CultureInfo.InvariantCulture),
            root.GetProperty("text").GetString()!,
            [.. facts.Where(f => !f.IsUsual && !f.IsOfWriter)],
            [.. Names(root, "denied").Concat(facts.Where(f => f.IsUsual).Select(f => f.Fact)).Distinct()],
            Names(root, "mentioned"),
            Names(root, "topics"),
            root.GetProperty("signpost").GetString());
    }

    static string? EarOf(JsonElement fact) => fact.TryGetProperty("ear", out var ear) ? ear.GetString() : null;

    static ImmutableArray<string> Names(JsonElement root, string property) =>
        [.. root.GetProperty(property).EnumerateArray().Select(n => n.GetString()!)];
}

/// <param name="Ear">Null: not said, or the fact is not about an ear.</param>
public sealed record Expected(string Fact, string Value, string? Ear)
{
    internal bool IsUsual => this is { Fact: "hearing", Value: "usual" };

    internal bool IsOfWriter => this is { Fact: "about whom", Value: "me" };
}
