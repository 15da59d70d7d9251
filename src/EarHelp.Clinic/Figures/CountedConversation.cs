using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Clinic.Figures;

/// <summary>What of a conversation is counted. It holds nothing that the person wrote.</summary>
/// <param name="IsAfterVisit">True if it began with what a clinician recorded.</param>
/// <param name="Level">The level that was told last, or null: none was.</param>
/// <param name="OpenScreen">What it waits for, or null.</param>
/// <param name="NotSure">Facts that were answered "not sure", each once.</param>
/// <param name="NotFound">The answers that came nearest to a question for which none was found, each once; "" if nothing came near.</param>
/// <param name="Answers">As they were told last.</param>
public sealed record CountedConversation(
    string Conversation,
    Instant BeganAt,
    Instant LastAt,
    bool IsAfterVisit,
    string? Level,
    string? OpenScreen,
    ImmutableArray<string> NotSure,
    ImmutableArray<string> NotFound,
    ImmutableArray<AnswerTold> Answers)
{
    /// <param name="records">All turns in order; at least one.</param>
    /// <exception cref="System.Text.Json.JsonException">One of them cannot be read.</exception>
    public static CountedConversation Of(ImmutableArray<TurnRecord> records)
    {
        var bodies = records.Select(r => TurnJson.Read(r.Body.Span)).ToList();
        var replies = bodies.SelectMany(b => b.Replies).ToList();
        var told = replies.OfType<Reply.Outcome>().LastOrDefault()?.Told;
        var chosen = bodies.Select(b => b.Turn.Content).OfType<TurnContent.Chosen>().SelectMany(c => c.Answers);
        return new CountedConversation(
            records[0].Conversation,
            Instant.FromUnixTimeMilliseconds(records[0].AtUnixMilliseconds),
            Instant.FromUnixTimeMilliseconds(records[^1].AtUnixMilliseconds),
            bodies[0].Turn.Content is TurnContent.Begin { Recorded: not null },
            told?.Level,
            bodies[^1].Replies.OfType<Reply.Ask>().LastOrDefault()?.Question.Name.Screen,
            [.. chosen.Where(a => a.NotSure).Select(a => a.Fact).Distinct(StringComparer.Ordinal)],
            [.. replies.OfType<Reply.NotKnown>().Select(n => n.Nearest.FirstOrDefault() ?? "").Distinct(StringComparer.Ordinal)],
            told?.Answers ?? []);
    }
}
