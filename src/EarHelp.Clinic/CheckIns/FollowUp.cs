using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Clinic.CheckIns;

/// <summary>What was sent to a patient about a visit, before or after it, and what came back; one for each conversation.</summary>
/// <param name="Version">From 1; each change is the next one.</param>
/// <param name="Email">Where the patient is asked after a visit; empty: it waits on the patient's page. What a request brings goes where the request says.</param>
/// <param name="StopCode">Ends the messages, and can do nothing else; stands in each of them.</param>
public sealed record FollowUp(string Conversation, int Version, string Email, string StopCode)
{
    /// <summary>A sender that was cut off between the server's acceptance and the record is believed to be gone after this (common practice).</summary>
    static readonly Duration ClaimHolds = Duration.FromMinutes(15);

    public bool IsStopped { get; init; }

    /// <summary>A link to the plan after the visit goes to the address as soon as the visit is recorded.</summary>
    public bool WantsPlan { get; init; }

    public ImmutableArray<SentMessage> Messages
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    public ImmutableArray<CheckInReply> Replies
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    public bool IsAsked => Email.Length > 0 && !IsStopped;

    public SentMessage? MessageOf(string name) => Messages.FirstOrDefault(m => m.Name == name);

    public CheckInReply? ReplyOf(int day) => Replies.LastOrDefault(r => r.Day == day);

    /// <summary>True if a message that is due has not been accepted, and nobody else is sending it.</summary>
    public bool MayBeSent(DueMessage due, Instant now)
    {
        ArgumentNullException.ThrowIfNull(due);
        return !IsStopped && due.IsOpen(now) && MessageOf(due.Name) switch
        {
            null => true,
            { State: MessageState.Claimed or MessageState.PutOff } earlier => earlier.At + ClaimHolds <= now,
            _ => false,
        };
    }

    /// <summary>Only who keeps this version sends it. A claim that was left open may have been accepted: then it is counted as a repeat.</summary>
    public FollowUp Claimed(string name, Instant now) => MessageOf(name) is { } earlier
        ? With(earlier with { State = MessageState.Claimed, At = now, Repeats = earlier.Repeats + (earlier.State == MessageState.Claimed ? 1 : 0) })
        : With(new SentMessage(name, MessageState.Claimed, now, 0));

    public FollowUp Settled(string name, MessageState state, Instant now) => MessageOf(name) is { } sent ? With(sent with { State = state, At = now }) : this;

    public FollowUp Replied(CheckInReply reply)
    {
        ArgumentNullException.ThrowIfNull(reply);
        return Next() with { Replies = [.. Replies, reply] };
    }

    public FollowUp Asking(string email) => Next() with { Email = email, IsStopped = false };

    public FollowUp Stopped() => Next() with { IsStopped = true };

    FollowUp With(SentMessage message) => Next() with { Messages = [.. Messages.Where(m => m.Name != message.Name), message] };

    FollowUp Next() => this with { Version = Version + 1 };
}

/// <param name="Name">Which of the patient's messages it is.</param>
/// <param name="At">When it came into this state.</param>
/// <param name="Repeats">How often it was sent although an earlier sending may have been accepted.</param>
public sealed record SentMessage(string Name, MessageState State, Instant At, int Repeats);

public enum MessageState
{
    /// <summary>Somebody is sending it, or was cut off.</summary>
    Claimed,

    /// <summary>The server has it.</summary>
    Accepted,

    /// <summary>The server did not take it now.</summary>
    PutOff,

    /// <summary>The server never takes it.</summary>
    Refused,
}

/// <param name="IsWell">False: something is worse, new or not as the plan says.</param>
public sealed record CheckInReply(int Day, Instant At, bool IsWell);
