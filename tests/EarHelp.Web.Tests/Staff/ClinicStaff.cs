using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Web.Tests.Staff;

/// <summary>One service for all tests about staff, with its first administrator.</summary>
public sealed class ClinicStaff : IAsyncLifetime
{
    /// <summary>A Thursday morning, at which the clinic is open. The clock of the tests about staff stands still.</summary>
    public static readonly DateTimeOffset Now = new(2026, 11, 26, 9, 30, 0, TimeSpan.Zero);

    int _joined;

    public RunningService Running { get; private set; } = null!;

    public Colleague Administrator { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Running = await RunningService.StartAsync(
            configure: services => services.AddSingleton<TimeProvider>(new FakeTimeProvider(Now)), settings: ["--requests-a-minute", "100000", "--requests-a-second", "100000"]);
        Administrator = new Colleague(Running, "ada");
        await Administrator.JoinAsync(PrintedCode(Running));
    }

    public async Task DisposeAsync()
    {
        Administrator.Dispose();
        await Running.DisposeAsync();
    }

    /// <summary>The code of the first account, as the service printed it.</summary>
    public static string PrintedCode(RunningService service) => Regex.Match(service.Console.ToString(), "one-time code: (?<code>[0-9A-Z ]{39})").Groups["code"].Value;

    /// <summary>Somebody with these roles, who has signed in.</summary>
    public async Task<Colleague> NewAsync(params string[] roles)
    {
        var name = $"colleague{Interlocked.Increment(ref _joined)}";
        var colleague = new Colleague(Running, name);
        await colleague.JoinAsync(await InviteAsync(name, roles));
        return colleague;
    }

    public async Task<string> InviteAsync(string name, params string[] roles)
    {
        var accounts = await Administrator.Browser.ReadAsync("/staff/accounts");
        var invited = await Administrator.SendAsync("/staff/accounts", accounts, [("name", name), .. roles.Select(r => ("roles", r))]);
        return Regex.Match(invited.Html, "id=\"code\">(?<code>[^<]+)<").Groups["code"].Value;
    }

    public async Task<IReadOnlyList<AuditEntry>> AuditAsync() =>
        (await Running.Services.GetRequiredService<IAuditTrail>().ReadAsync(CancellationToken.None)).Entries;

    public async Task<string> AccountOfAsync(string signInName) =>
        (await Running.Services.GetRequiredService<IStaffStore>().AllAsync(CancellationToken.None)).Single(a => a.SignInName == signInName).Id;
}

[CollectionDefinition(Name)]
public sealed class OneClinicStaff : ICollectionFixture<ClinicStaff>
{
    public const string Name = "one service with staff";
}
