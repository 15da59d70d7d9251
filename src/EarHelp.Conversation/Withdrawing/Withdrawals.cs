using System.Collections.Immutable;
using System.Text.Json.Serialization;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Signing;

namespace EarHelp.Conversation.Withdrawing;

/// <summary>What is not told at a moment, because somebody took it off. The most urgent level is always told.</summary>
/// <param name="AllTriage">True: no question is asked and no outcome told.</param>
/// <param name="Outcomes">Ids of levels whose outcome is not told, sorted.</param>
public sealed record Withdrawals(bool AllTriage, ImmutableArray<string> Outcomes)
{
    public static Withdrawals None { get; } = new(false, []);

    public static Withdrawals Everything { get; } = new(true, []);

    public static Withdrawals In(Ledger ledger)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        var now = None;
        foreach (var deed in ledger.Deeds)
            now = now.After(deed);
        return now;
    }

    [JsonIgnore]
    public bool IsNone => !AllTriage && Outcomes.IsEmpty;

    public bool Withholds(OutcomeTold told)
    {
        ArgumentNullException.ThrowIfNull(told);
        return told.Rank > 0 && (AllTriage || Outcomes.Contains(told.Level));
    }

    /// <summary>True if this very thing is withdrawn by a deed of its own.</summary>
    /// <param name="outcome">Id of a level; null: all triage.</param>
    public bool Names(string? outcome) => outcome is null ? AllTriage : Outcomes.Contains(outcome);

    /// <summary>The end of all triage's withdrawal is the end of all; that of one outcome leaves the rest.</summary>
    Withdrawals After(Deed deed) => deed switch
    {
        { Kind: DeedKind.Withdrawn, Outcome: null } => this with { AllTriage = true },
        { Kind: DeedKind.Withdrawn, Outcome: { } outcome } => this with { Outcomes = [.. Outcomes.Append(outcome).Distinct().Order(StringComparer.Ordinal)] },
        { Kind: DeedKind.Lifted, Outcome: null } => None,
        { Kind: DeedKind.Lifted, Outcome: { } outcome } => this with { Outcomes = Outcomes.Remove(outcome) },
        _ => this,
    };
}
