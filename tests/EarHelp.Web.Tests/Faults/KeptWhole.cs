using System.Collections.Concurrent;
using System.Globalization;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Desk;
using EarHelp.Conversation.Taking;
using EarHelp.Storage;
using EarHelp.Web.Tests.Nodes;
using NodaTime;

namespace EarHelp.Web.Tests.Faults;

/// <summary>A look at everything that a store keeps, beside what people were told and what the mail server took.</summary>
/// <param name="Lost">Turns that were acknowledged and are not kept.</param>
/// <param name="Doubled">Turns that are kept more than once.</param>
/// <param name="Differing">Turns whose replies do not come out again.</param>
/// <param name="SharedTimes">Pairs of people who have the same time.</param>
/// <param name="EscalatedTwice">Requests that went to whoever is on duty twice.</param>
/// <param name="CheckIns">Messages that were due.</param>
/// <param name="LostCheckIns">Messages that were due and did not arrive.</param>
/// <param name="Repeats">How often a message may have arrived once more, as it is kept.</param>
/// <param name="UncountedRepeats">Messages that arrived oftener than that.</param>
sealed record KeptWhole(
    int Conversations, int Turns, int Acknowledged, int Refused, int Lost, int Doubled, int Differing, int Times, int SharedTimes, int EscalatedTwice, int CheckIns, int LostCheckIns, int Repeats, int UncountedRepeats)
{
    /// <param name="now">The clock of the node that is furthest ahead: what another holds beyond it, nobody else has.</param>
    /// <param name="mails">What the mail server took; null: nobody was to be written to.</param>
    public static async Task<KeptWhole> LookAsync(IStore store, Acknowledged told, DateTimeOffset now, IReadOnlyList<string>? mails = null)
    {
        var kept = new ConcurrentDictionary<string, int>(StringComparer.Ordinal);
        var (turns, differing) = (0, 0);
        var taking = new TurnTaking(store, await KeptEditions.OfAsync(store), TimeProvider.System);
        var conversations = await store.ConversationsAsync(default);
        await Parallel.ForEachAsync(conversations, async (conversation, cancellation) =>
        {
            // Loading refuses a conversation whose chain of hashes is not whole.
            var replayed = await taking.ReplayAsync(conversation, cancellation);
            foreach (var turn in replayed.Turns)
                kept.AddOrUpdate($"{conversation} {turn.Turn.Id}", 1, (_, count) => count + 1);
            Interlocked.Add(ref turns, replayed.Turns.Length);
            Interlocked.Add(ref differing, replayed.Differing.Length);
        });
        var ofForms = kept.GroupBy(k => k.Key[(k.Key.IndexOf(' ', StringComparison.Ordinal) + 1)..]).ToDictionary(g => g.Key, g => g.Sum(k => k.Value), StringComparer.Ordinal);
        var requests = (await store.Requests.WaitingAsync(default)).Select(k => k.Request).ToList();
        var times = requests.SelectMany(r => r.TakenAt(Instant.FromDateTimeOffset(now)).Select(t => (r.Conversation, Time: t))).ToList();
        var asked = mails is null ? [] : (await store.FollowUps.AllAsync(default)).Where(f => f.Email.Length > 0).ToList();
        var arrived = asked.Select(f => (FollowUp: f, Message: f.Messages.SingleOrDefault(), Count: mails!.Count(m => m.Contains($"To: {f.Email}\r\n", StringComparison.Ordinal)))).ToList();
        return new KeptWhole(
            conversations.Length,
            turns,
            told.Forms.Count,
            told.Refused,
            told.Forms.Count(f => !ofForms.ContainsKey(f)),
            kept.Count(k => k.Value > 1) + told.Forms.Count(f => ofForms.GetValueOrDefault(f) > 1),
            differing,
            times.Count,
            times.Sum(a => times.Count(b => string.CompareOrdinal(a.Conversation, b.Conversation) < 0 && a.Time.Overlaps(b.Time))),
            requests.Count(r => r.Steps.Count(s => s.Kind == DeskStepKind.Escalated) > 1),
            arrived.Count,
            arrived.Count(a => a is not { Message.State: MessageState.Accepted, Count: > 0 }),
            arrived.Sum(a => a.Message?.Repeats ?? 0),
            arrived.Count(a => a.Count > 1 + (a.Message?.Repeats ?? 0)));
    }

    public void AssertIsWhole()
    {
        Assert.Equal((0, 0, 0), (Lost, Doubled, Differing));
        Assert.Equal((0, 0), (SharedTimes, EscalatedTwice));
        Assert.Equal((0, 0), (LostCheckIns, UncountedRepeats));
        Assert.True(Refused > 0, "The faults were not felt.");
    }

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Conversations} conversations with {Turns} turns, all chains whole; {Acknowledged} forms acknowledged, {Refused} times not: {Lost} lost, {Doubled} doubled; "
        + $"{Differing} turns replayed differently; {Times} times taken, {SharedTimes} with two holders; {EscalatedTwice} escalated twice; "
        + $"{CheckIns} check-ins, {LostCheckIns} lost, {Repeats} repeated, {UncountedRepeats} uncounted.");
}
