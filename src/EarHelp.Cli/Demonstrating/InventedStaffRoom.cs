using System.Collections.Immutable;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Content.Demonstrations;
using EarHelp.Web.Staff;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>The staff of the invented week. They get in by one-time codes, as anybody who is invited; none has a password.</summary>
sealed class InventedStaffRoom
{
    readonly ImmutableArray<StaffAccount> _accounts;

    InventedStaffRoom(ImmutableArray<StaffAccount> accounts, ImmutableArray<GivenCode> codes) => (_accounts, Codes) = (accounts, codes);

    /// <summary>Printed once and kept nowhere.</summary>
    public ImmutableArray<GivenCode> Codes { get; }

    /// <summary>Whoever of this role is on duty, else the first who has it, else the first of all.</summary>
    public StaffAccount Of(StaffRole role) =>
        _accounts.Where(a => a.Roles.Contains(role)).OrderByDescending(a => a.IsOnDuty).FirstOrDefault() ?? _accounts[0];

    public StaffAccount? Named(string name) => _accounts.FirstOrDefault(a => a.ShownName == name);

    /// <param name="invitedAt">From then on the codes work, for as long as any invitation.</param>
    public static async Task<InventedStaffRoom> OpenAsync(InventedWeek week, InventedPeople people, IStaffStore store, Auditor auditor, Instant invitedAt, CancellationToken cancellation)
    {
        var accounts = ImmutableArray.CreateBuilder<StaffAccount>();
        var codes = ImmutableArray.CreateBuilder<GivenCode>();
        foreach (var staff in week.Staff)
        {
            var roles = staff.Roles.Select(r => Enum.Parse<StaffRole>(r, ignoreCase: true)).ToImmutableArray();
            var blank = new StaffAccount(people.NextIdentifier(), 1, staff.Name, roles, StaffState.Invited, people.NextIdentifier()) { IsOnDuty = staff.IsOnDuty };
            var (account, code) = OneTimeInvitation.For(blank, invitedAt);
            await auditor.AddAboutAccountAsync(Actor.Terminal, AuditDeed.Invited, account.Id, cancellation).ConfigureAwait(false);
            await store.PutAsync(account, cancellation).ConfigureAwait(false);
            accounts.Add(account);
            codes.Add(new GivenCode(staff.Name, staff.Roles, code));
        }

        return new InventedStaffRoom(accounts.ToImmutable(), codes.ToImmutable());
    }
}

/// <param name="Code">In groups, as it is typed.</param>
sealed record GivenCode(string Name, ImmutableArray<string> Roles, string Code);
