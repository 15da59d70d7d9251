using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;
using EarHelp.Understanding.Messages;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Conversation.Searching;

/// <summary>
/// Finds what was typed and not understood in conversations whose people allowed clinicians to read it. It is read from the
/// conversations and kept nowhere else, so that it is erased with them.
/// </summary>
public static class UnansweredSearch
{
    /// <param name="book">Of the edition that is served: what is a word of it is no name.</param>
    /// <param name="since">Earlier messages are left out.</param>
    public static async ValueTask<Unanswered> FindAsync(
        IKeptConversations kept, ITurnStore turns, PhraseBook book, Instant since, CancellationToken cancellation)
    {
        var found = ImmutableArray.CreateBuilder<NotUnderstood>();
        var unreadable = 0;
        await foreach (var one in kept.ReadAsync(turns, records => In(records, book, since), cancellation).ConfigureAwait(false))
        {
            found.AddRange(one.Read ?? []);
            unreadable += one.IsReadable ? 0 : 1;
        }

        return new Unanswered([.. found.OrderBy(f => f.Day, StringComparer.Ordinal).ThenBy(f => f.Words, StringComparer.Ordinal)], unreadable);
    }

    static List<NotUnderstood> In(ImmutableArray<TurnRecord> records, PhraseBook book, Instant since)
    {
        var allowed = new List<NotUnderstood>();
        var waiting = new List<NotUnderstood>();
        var isAllowed = false;
        foreach (var record in records)
        {
            var body = TurnJson.Read(record.Body.Span);
            if (body.Turn.Content is TurnContent.ShareWords share)
                isAllowed = share.IsAllowed;
            else if (body.Turn.Content is TurnContent.StartOver)
                Close();
            else if (body.Turn.Content is TurnContent.Typed typed && body.Replies.Any(IsNotUnderstood) && record.AtUnixMilliseconds >= since.ToUnixTimeMilliseconds())
                waiting.Add(new NotUnderstood(DayOf(record), body.Turn.Answers?.Screen ?? string.Empty, WithoutNames.Of(book, typed.Text)));
        }

        Close();
        return allowed;

        void Close()
        {
            if (isAllowed)
                allowed.AddRange(waiting);
            waiting.Clear();
            isAllowed = false;
        }
    }

    static bool IsNotUnderstood(Reply reply) =>
        reply is Reply.NotKnown || (reply is Reply.Say say && say.Text.StartsWith("not understood", StringComparison.Ordinal));

    /// <summary>The day alone: with the minute, a message could be laid beside a conversation.</summary>
    static string DayOf(TurnRecord record) =>
        LocalDatePattern.Iso.Format(Instant.FromUnixTimeMilliseconds(record.AtUnixMilliseconds).InUtc().Date);
}
