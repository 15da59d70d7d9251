using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Security;
using NodaTime;

namespace EarHelp.Web.Staff;

/// <summary>
/// As long as nobody can administer the accounts, a one-time code for the first one is printed at each start. It is kept in memory only, and
/// there is no account and no password before somebody uses it.
/// </summary>
public sealed class FirstAccount(IStaffStore store, TextWriter console) : IHostedLifecycleService
{
    readonly string _code = ReceiptCode.For(Secret.New(), "first account");

    public async Task StartedAsync(CancellationToken cancellationToken)
    {
        if (await IsNeededAsync(cancellationToken))
            await console.WriteLineAsync($"Nobody can sign in as staff yet. Open {StaffParts.Prefix}/join and use this one-time code: {ReceiptCode.InGroups(_code)}");
    }

    /// <summary>Makes the first account for who has the printed code; null if it is not that code, or no first account is needed.</summary>
    internal async Task<StaffAccount?> MakeAsync(string code, Instant until, CancellationToken cancellation)
    {
        var hash = Secret.HashOf(code);
        if (hash != Secret.HashOf(_code) || !await IsNeededAsync(cancellation))
            return null;

        // Named after the code, so that the code used twice at the same moment is one account.
        var id = Secret.HashOf("account:" + hash)[..22];
        var account = new StaffAccount(id, 1, string.Empty, [StaffRole.Administrator], StaffState.Invited, Secret.NewIdentifier())
        {
            Invitation = new Invitation(hash, until),
        };
        await store.PutAsync(account, cancellation);
        return await store.FindAsync(id, cancellation);
    }

    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    async ValueTask<bool> IsNeededAsync(CancellationToken cancellation) =>
        !(await store.AllAsync(cancellation)).Any(a => a.Has(StaffRole.Administrator));
}
