using System.Collections.Immutable;

namespace EarHelp.Web.Pages;

/// <summary>What an edition must word so that the pages can be shown; one that lacks any is not served.</summary>
public static class NeededWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "about", "accessibility", "answer missing", "answers ask", "answers back", "answers heading", "answers hint", "back", "change", "channel emergency", "clinic contact", "clinic relay", "come back later", "come back link",
        "continue", "conversation", "copy link", "date day", "date month", "date year", "demonstration", "demonstration why",
        "does not diagnose", "drawing title", "emergency call", "emergency country", "emergency line", "emergency line abroad",
        "emergency line abroad heading", "emergency line nobody near", "emergency line without hearing", "emergency without hearing heading",
        "error heading", "error title", "first message", "first message hint", "form not taken", "form not taken hint", "go to plan",
        "if nobody answered", "invented", "invented why", "kept until", "leave now", "left", "look again", "link copied", "link once", "message too large", "none of these",
        "none and others", "not saved", "nothing chosen", "number not understood", "number out of range", "number step", "date not understood",
        "open conversation", "or write", "page not found", "page not found hint", "plan changed heading", "read back hint", "plan heading", "plan heading other",
        "plan made", "print", "privacy", "read aloud", "said by you", "saved", "send", "sending", "service at clinic", "service name",
        "show all", "skip to question", "something broke", "something has changed", "something has changed hint", "start", "start over",
        "start over no", "start over question", "start over yes", "stop reading", "text too long", "time line", "time line after", "time line now",
        "time line seen", "time line until", "too many messages", "what to do", "why we ask", "corrected heading", "withdrawn heading", "yes and unsure", "outer ear", "ear tube", "eardrum",
        "behind the drum", "inner ear", "point at the ear",
    ];

    public static ImmutableArray<string> Pages { get; } =
    [
        "greeting", "privacy", "accessibility", "about", "emergency", "not saved", "expired", "held", "busy", "return link", "return page", "printed plan",
    ];
}
