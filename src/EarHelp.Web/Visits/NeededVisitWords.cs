using System.Collections.Immutable;

namespace EarHelp.Web.Visits;

/// <summary>What an edition must word so that a visit can be asked for; one that lacks any is not served.</summary>
public static class NeededVisitWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "visit offer heading", "visit offer", "visit offer button", "visit asked", "visit asked button", "visit heading", "visit change heading",
        "visit purpose", "visit one way", "visit reach", "visit reach hint", "visit by text", "visit by email", "visit by call", "visit by relay",
        "visit number", "visit email", "visit who", "visit name", "visit name other", "visit asked by", "visit needs", "visit needs hint",
        "visit interpreter", "visit language", "visit sign language", "visit step free", "visit carer", "visit chaperone", "visit been before", "visit note",
        "visit check", "complaints", "visit no way", "visit no number", "visit no email", "visit wrong number", "visit wrong email",
        "visit review heading", "visit review hint", "visit for whom", "visit from whom", "visit not said", "visit reached by", "visit any way", "visit helps", "visit nothing",
        "visit send", "visit correct", "visit sent heading", "visit sent at", "visit seen by", "visit no limit", "visit code", "visit code hint",
        "visit code before", "visit code where", "visit kept", "visit change", "visit withdraw", "visit withdraw heading", "visit withdraw hint",
        "visit withdraw yes", "visit withdraw no", "visit withdrawn heading", "visit withdrawn", "visit ask again", "visit to plan",
        "visit time heading", "visit time none", "visit time choose", "visit times heading", "visit times hint", "visit times before",
        "visit time label", "visit times later", "visit times none", "visit times no later", "visit times unknown", "visit times instead",
        "visit time gone", "visit time held", "visit time confirm", "visit time another", "visit time booked", "visit time place", "visit time too late",
        "visit time file", "visit time move", "visit time cancel", "visit cancel heading", "visit cancel hint", "visit cancel yes",
        "visit cancel no", "visit calendar title",
        "visit answered", "answer clinic heading", "answer clinic judged", "answer clinic accepted", "answer clinic offered", "answer clinic telephoned",
        "answer clinic not reached", "answer clinic elsewhere", "answer clinic called off", "answer clinic did not come", "closed at once",
        "receipt heading", "receipt hint", "receipt code", "receipt open", "receipt wrong", "receipt link",
    ];

    public static ImmutableArray<string> Pages { get; } = ["complaints"];
}
