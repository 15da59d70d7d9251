using System.Collections.Immutable;

namespace EarHelp.Web.Desk;

/// <summary>What an edition must word so that requests can be answered; one that lacks any is not served.</summary>
public static class NeededDeskWords
{
    public static ImmutableArray<string> Texts { get; } =
    [
        "desk heading", "desk count", "desk as of", "desk unanswered", "desk answered", "desk by when", "desk who", "desk reach", "desk done", "desk nothing done",
        "desk nameless", "desk asked by", "desk any way", "desk booked", "desk booked late", "desk place of visit", "desk answer by", "desk answer over", "desk left", "desk late", "desk days hours", "desk hours minutes",
        "desk danger", "desk danger none", "desk treating", "desk treating none", "desk visit", "desk dates", "desk own words", "desk own words none", "desk not known", "desk others",
        "desk plain no", "desk earlier", "desk told", "desk told open", "desk contact", "desk judged", "desk by",
        "desk step accepted", "desk step offered", "desk step telephoned", "desk step not reached", "desk step elsewhere",
        "desk do", "desk accept", "desk no time", "desk times heading", "desk times hint", "desk times none", "desk times unknown", "desk time gone", "desk offer", "desk book",
        "desk telephone heading", "desk note", "desk note hint", "desk note missing", "desk telephoned", "desk not reached",
        "desk elsewhere heading", "desk place", "desk place note", "desk patient reads", "desk place missing", "desk elsewhere",
        "desk level heading", "desk level", "desk reason", "desk reason missing", "desk level missing", "desk level refused", "desk choose",
        "desk step called off", "desk step did not come", "desk step escalated", "desk step not well", "desk after visit", "desk escalated", "desk did not come", "desk not over", "desk same person",
        "closing heading", "closing hint", "closing last day", "closing close", "closing now", "closing open hint", "closing open", "closing wrong day",
        "incidents heading", "incidents none", "incident heading", "incident hint", "incident kept", "incident happened", "incident staff reads", "incident send",
        "incident by", "incident by patient", "incident conversation", "incident edition", "incident rules", "incident rules none",
        "incident link", "incident patient heading", "incident patient hint", "incident patient reads", "incident missing", "incident thanks",
        "recall heading", "recall hint", "recall edition", "recall rule", "recall rule hint", "recall find", "recall unknown", "recall count", "recall unreadable",
        "recall when", "recall outcome", "recall decided", "recall beside", "recall no contact",
        "callers heading", "callers hint", "callers begin", "callers after visit", "callers end hint", "callers end", "callers broken", "callers none", "callers no number", "callers begun",
        "callers followed up", "caller heading", "caller now heading", "caller number", "caller number hint", "caller back",
        "duty heading", "duty on", "duty off", "duty begin", "duty end", "desk level button",
    ];

    public static ImmutableArray<string> Pages { get; } = ["caller", "caller now"];
}
