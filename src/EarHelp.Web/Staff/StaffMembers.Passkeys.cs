using EarHelp.Clinic.Staff;
using Microsoft.AspNetCore.Identity;
using NodaTime;

namespace EarHelp.Web.Staff;

public sealed partial class StaffMembers
{
    public Task AddOrUpdatePasskeyAsync(StaffMember user, UserPasskeyInfo passkey, CancellationToken cancellationToken)
    {
        var kept = Kept(passkey);
        return Change(user, a => a with { Passkeys = [.. a.Passkeys.Where(p => p.Id != kept.Id), kept] });
    }

    public Task<IList<UserPasskeyInfo>> GetPasskeysAsync(StaffMember user, CancellationToken cancellationToken) =>
        Task.FromResult<IList<UserPasskeyInfo>>([.. user.Account.Passkeys.Select(Read)]);

    public Task<StaffMember?> FindByPasskeyIdAsync(byte[] credentialId, CancellationToken cancellationToken)
    {
        var id = Convert.ToBase64String(credentialId);
        return FirstAsync(a => a.Passkeys.Any(p => p.Id == id), cancellationToken);
    }

    public Task<UserPasskeyInfo?> FindPasskeyAsync(StaffMember user, byte[] credentialId, CancellationToken cancellationToken)
    {
        var id = Convert.ToBase64String(credentialId);
        return Task.FromResult(user.Account.Passkeys.Where(p => p.Id == id).Select(Read).FirstOrDefault());
    }

    public Task RemovePasskeyAsync(StaffMember user, byte[] credentialId, CancellationToken cancellationToken)
    {
        var id = Convert.ToBase64String(credentialId);
        return Change(user, a => a with { Passkeys = [.. a.Passkeys.Where(p => p.Id != id)] });
    }

    static Passkey Kept(UserPasskeyInfo passkey) => new(
        Convert.ToBase64String(passkey.CredentialId),
        Convert.ToBase64String(passkey.PublicKey),
        Instant.FromDateTimeOffset(passkey.CreatedAt),
        passkey.SignCount,
        [.. passkey.Transports ?? []],
        passkey.IsUserVerified,
        passkey.IsBackupEligible,
        passkey.IsBackedUp,
        Convert.ToBase64String(passkey.AttestationObject),
        Convert.ToBase64String(passkey.ClientDataJson));

    static UserPasskeyInfo Read(Passkey kept) => new(
        Convert.FromBase64String(kept.Id),
        Convert.FromBase64String(kept.PublicKey),
        kept.MadeAt.ToDateTimeOffset(),
        checked((uint)kept.SignCount),
        [.. kept.Transports],
        kept.IsUserVerified,
        kept.IsBackupEligible,
        kept.IsBackedUp,
        Convert.FromBase64String(kept.Attestation),
        Convert.FromBase64String(kept.ClientJson));
}
