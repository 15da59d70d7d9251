using System.Collections.Immutable;

namespace EarHelp.Browser.Running;

/// <summary>An invented person: what they choose on a screen, by the words on the page. What is not named is answered as clear.</summary>
/// <param name="Choices">By screen, the labels they choose. A screen that is not here: "none of these", or the last plain option.</param>
public sealed record Person(string Name, string Whose, string Age, string Place, ImmutableDictionary<string, string[]> Choices)
{
    /// <summary>Answers "not sure" to every question after the form that offers it.</summary>
    public bool IsUnsure { get; init; }

    static ImmutableDictionary<string, string[]> BlockedEar { get; } = new Dictionary<string, string[]>
    {
        ["ears affected"] = ["The left ear"],
        ["hearing"] = ["The same as before"],
        ["ear signs"] = ["It feels blocked or full"],
    }.ToImmutableDictionary();

    /// <summary>A blocked ear after days of swimming, hearing as before.</summary>
    public static Person Swimmer { get; } = new(
        "swimmer", "Mine", "34", "Near the clinic", BlockedEar.Add("lately", ["Swimming", "A cotton bud"]));

    /// <summary>The same, but the hearing dropped within days and nobody has looked.</summary>
    public static Person SuddenlyDull { get; } = new(
        "suddenly-dull",
        "Mine",
        "41",
        "Near the clinic",
        BlockedEar.SetItem("hearing", ["Duller or quieter"])
            .Add("hearing worsened over", ["At once"])
            .Add("hearing changed on", ["1 to 3 days ago"])
            .Add("looked at", ["Nobody has looked"]));

    /// <summary>Slowly duller over months: no hurry, and the clinic is the place.</summary>
    public static Person SlowlyDuller { get; } = new(
        "slowly-duller",
        "Mine",
        "58",
        "Near the clinic",
        BlockedEar.SetItem("hearing", ["Duller or quieter"])
            .Add("hearing worsened over", ["More than 90 days, slowly"])
            .Add("hearing changed on", ["More than 90 days ago"])
            .Add("looked at", ["Nobody has looked"]));

    /// <summary>A sign of a stroke, which stands third in its list.</summary>
    public static Person SlurredSpeech { get; } = new(
        "slurred-speech", "Mine", "67", "Near the clinic", BlockedEar.Add("danger signs", ["Words are slurred"]));

    public static Person Unsure { get; } = new("unsure", "Mine", "50", "Near the clinic", BlockedEar) { IsUnsure = true };

    public static Person Child { get; } = new("child", "Someone else's", "6", "Near the clinic", BlockedEar);

    public static Person Abroad { get; } = new("abroad", "Mine", "29", "In another country", BlockedEar);
}
