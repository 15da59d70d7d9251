using System.Collections.Immutable;
using System.Security.Claims;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Security;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Provider;

/// <summary>The account of somebody who signed in at the clinic's own provider. Name and roles are what the provider says each time.</summary>
public sealed class ProviderAccounts(IStaffStore store, Auditor auditor, ProviderSettings settings)
{
    const string Subject = "sub", Issuer = "iss", FullName = "name", ShortName = "preferred_username";

    /// <returns>Null: the person has no role here, or the account was closed here.</returns>
    public async Task<StaffAccount?> FindAsync(ClaimsPrincipal person, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(person);
        var roles = RolesOf(person);
        if (person.FindFirst(Subject) is not { } subject)
            return null;

        // Named after the person at the provider, so that two sign-ins at the same moment are one account.
        var id = Secret.HashOf($"provider:{subject.Issuer} {person.FindFirst(Issuer)?.Value} {subject.Value}")[..22];
        var name = StaffForm.ReadLine(person.FindFirst(FullName)?.Value ?? person.FindFirst(ShortName)?.Value ?? subject.Value);
        while (true)
        {
            var account = await store.FindAsync(id, cancellation);
            if (roles.IsEmpty ? account is null : account?.State == StaffState.Closed)
                return null;
            if (account is not null && account.ShownName == name && account.Roles.SequenceEqual(roles))
                return account;
            var next = account is null
                ? new StaffAccount(id, 1, name, roles, StaffState.Open, Secret.NewIdentifier()) { IsFromProvider = true }
                : account with { Version = account.Version + 1, ShownName = name, Roles = roles };
            await auditor.AddAboutAccountAsync(Actor.Service, account is null ? AuditDeed.Joined : AuditDeed.RolesChanged, id, cancellation);
            if (await store.PutAsync(next, cancellation) == StaffPut.Kept)
                return roles.IsEmpty ? null : next;
        }
    }

    ImmutableArray<StaffRole> RolesOf(ClaimsPrincipal person) =>
        [.. person.FindAll(settings.RoleClaim).Where(c => settings.Roles.ContainsKey(c.Value)).Select(c => settings.Roles[c.Value]).Distinct().Order()];
}
