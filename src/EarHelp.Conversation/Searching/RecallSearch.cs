using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;

namespace EarHelp.Conversation.Searching;

/// <summary>Finds who was told something by a rule, or a level, so that they can be called back.</summary>
public static class RecallSearch
{
    /// <param name="rule">A row, the rule that owns several, or a level: whatever decided for it.</param>
    public static async ValueTask<Recall> FindAsync(
        IKeptConversations kept, ITurnStore turns, string edition, string rule, CancellationToken cancellation)
    {
        var told = ImmutableArray.CreateBuilder<ToldByRule>();
        var unreadable = ImmutableArray.CreateBuilder<string>();
        await foreach (var one in kept.ReadAsync(turns, records => In(records, edition, rule).ToList(), cancellation).ConfigureAwait(false))
        {
            told.AddRange(one.Read ?? []);
            if (!one.IsReadable)
                unreadable.Add(one.Conversation);
        }

        return new Recall([.. told.OrderBy(t => t.AtUnixMilliseconds).ThenBy(t => t.Conversation, StringComparer.Ordinal)], unreadable.ToImmutable());
    }

    static IEnumerable<ToldByRule> In(ImmutableArray<TurnRecord> records, string edition, string rule)
    {
        var isOpen = !records.IsEmpty && TurnJson.Read(records[^1].Body.Span).Replies.Any(r => r is Reply.Ask or Reply.Confirm);
        foreach (var record in records.Where(r => r.EditionId == edition))
        {
            foreach (var outcome in TurnJson.Read(record.Body.Span).Replies.OfType<Reply.Outcome>())
            {
                ReasonTold[] reasons = [.. outcome.Told.Reasons.Where(r => outcome.Told.Level == rule ? r.Decides : Owns(rule, r.Rule))];
                if (reasons.Length > 0)
                {
                    ImmutableArray<string> rows = [.. reasons.Select(r => r.Rule).Distinct().Order(StringComparer.Ordinal)];
                    yield return new ToldByRule(
                        record.Conversation, record.Number, record.AtUnixMilliseconds, outcome.Told.Level, rows, reasons.Any(r => r.Decides), isOpen);
                }
            }
        }
    }

    static bool Owns(string rule, string row) => row == rule || row.StartsWith(rule + ".", StringComparison.Ordinal);
}
