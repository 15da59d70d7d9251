using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using EarHelp.Conversation.Keeping;
using NodaTime;

namespace EarHelp.Storage.Tests.Moving;

/// <summary>What a store gives out through its ports, as text: two stores that hold the same give the same.</summary>
static class ReadStore
{
    public static async Task<string> AllAsync(IStore store)
    {
        var all = new StringBuilder();
        var conversations = await store.ConversationsAsync(default);
        foreach (var conversation in conversations)
        {
            foreach (var turn in await store.LoadAsync(conversation, default))
                Add(turn with { Body = default }, Convert.ToHexString(turn.Body.Span));
            Add(await store.IsLastAsync(conversation, 2, default), await store.FindByKeyAsync("key of " + conversation, 1_000, default), await store.FindByKeyAsync("once " + conversation, 8_999, default));
            Add(await store.FindByKeyAsync("once " + conversation, 9_000, default), await store.Requests.FindAsync(conversation, default), await store.Callers.FindAsync(conversation, default));
            Add(await store.Visits.FindAsync(conversation, default), await store.FollowUps.FindAsync(conversation, default), string.Empty);
        }

        Add((await store.Requests.WaitingAsync(default)).OrderBy(k => k.Request.Conversation, StringComparer.Ordinal), await store.Requests.TakenAsync(Instant.FromUtc(2020, 11, 26, 9, 30), "nobody", default));
        Add((await store.Visits.AllAsync(default)).OrderBy(v => v.Conversation, StringComparer.Ordinal), await store.Incidents.AllAsync(default), await store.Callers.AllAsync(default));
        Add(await store.Closings.AllAsync(default), await store.Staff.AllAsync(default), await store.SealingKeys.AllAsync(default), await store.Audit.ReadAsync(default));
        Add(Encoding.UTF8.GetString((await store.FindAsync("edition", default))!.Value.Span), (await ((IEditionLedger)store).ReadAsync(default)).Select(r => r.Hash));
        return all.ToString();

        void Add(params object?[] things)
        {
            foreach (var thing in things)
                all.AppendLine(JsonSerializer.Serialize(thing));
        }
    }
}
