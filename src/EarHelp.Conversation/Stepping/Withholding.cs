using System.Collections.Immutable;
using EarHelp.Conversation.Replies;

namespace EarHelp.Conversation.Stepping;

/// <summary>What is told in the place of what is withdrawn. An emergency is always told.</summary>
public static class Withholding
{
    public const string AllKey = "withdrawn";

    public const string OutcomeKey = "withdrawn outcome";

    public const string CorrectedKey = "questions corrected";

    /// <summary>Every edition has this page: it stands in for words that an older one lacks.</summary>
    const string EmergencyKey = "emergency";

    internal static Reply Outcome(Draft draft) => Said(draft, OutcomeKey);

    /// <summary>All replies; while all triage is withdrawn only the emergencies among them, and that it is.</summary>
    internal static ImmutableArray<Reply> Told(Draft draft)
    {
        if (!draft.Withdrawn.AllTriage)
            return [.. draft.Replies];
        ImmutableArray<Reply> emergencies = [.. draft.Replies.Where(r => r is Reply.Alarm or Reply.Outcome { Told.Rank: 0 })];
        return emergencies.Any(r => r is Reply.Outcome) ? emergencies : [.. emergencies, Said(draft, AllKey)];
    }

    static Reply.Say Said(Draft draft, string key) =>
        Sayings.Plain(draft.Edition.Edition.Wordings[draft.Language].Pages.ContainsKey(key) ? key : EmergencyKey);
}
