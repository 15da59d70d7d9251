using System.Collections.Immutable;
using EarHelp.Clinic.Desk;
using EarHelp.Clinic.Staff;

namespace EarHelp.Web.Desk;

/// <summary>How many requests nobody has answered in time, and who is on duty: shown to them on every page of staff.</summary>
public sealed class EscalatedNow
{
    volatile State _state = new(0, []);

    /// <summary>0 for who is not on duty.</summary>
    public int CountFor(StaffAccount account)
    {
        ArgumentNullException.ThrowIfNull(account);
        var now = _state;
        return now.OnDuty.Contains(account.Id) ? now.Count : 0;
    }

    internal void Set(int count, ImmutableArray<StaffAccount> accounts) => _state = new State(count, [.. Escalation.OnDuty(accounts).Select(a => a.Id)]);

    sealed record State(int Count, ImmutableHashSet<string> OnDuty);
}
