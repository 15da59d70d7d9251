using System.Text.RegularExpressions;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.CheckIns;
using EarHelp.Clinic.Keeping;
using EarHelp.Servers.Host;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.CheckIns;

/// <summary>A service with a moved clock and a real SMTP server in a process of its own, and a clinician who is at the desk too.</summary>
public sealed partial class AskedService : IAsyncLifetime, IDisposable
{
    /// <summary>A Tuesday in winter, when the clinic's clock is that of UTC.</summary>
    static readonly DateTimeOffset Start = new(2026, 11, 24, 10, 0, 0, TimeSpan.Zero);

    public MovedClock Clock { get; } = new(Start);

    public RunningService Running { get; private set; } = null!;

    public SmtpProcess Mail { get; private set; } = null!;

    public Colleague Kim { get; private set; } = null!;

    /// <summary>Settings of a service that sends to the server.</summary>
    public static string[] SettingsFor(SmtpProcess mail) =>
    [
        "--mail-server", $"127.0.0.1:{mail?.Port}", "--mail-from", "hello@mail.example.org", "--mail-certificate", mail!.Certificate, "--public-address", "https://post.example.org/",
        "--requests-a-minute", "100000", "--requests-a-second", "100000",
    ];

    public async Task InitializeAsync()
    {
        Mail = await SmtpProcess.StartAsync();
        Running = await RunningService.StartAsync(configure: Configure, settings: SettingsFor(Mail));
        Kim = new Colleague(Running, "kim");
        await Kim.JoinAsync(ClinicStaff.PrintedCode(Running));
        var address = "/staff/accounts/" + (await Running.Services.GetRequiredService<IStaffStore>().AllAsync(default)).Single().Id;
        await Kim.SendAsync(address + "/roles", await Kim.Browser.ReadAsync(address), ("roles", "administrator"), ("roles", "desk"), ("roles", "clinician"));
    }

    /// <summary>Staff stay signed in while the clock is moved by days.</summary>
    void Configure(IServiceCollection services)
    {
        services.AddSingleton<TimeProvider>(Clock);
        services.ConfigureAll<CookieAuthenticationOptions>(cookies => cookies.TimeProvider = TimeProvider.System);
        services.Configure<SecurityStampValidatorOptions>(stamps => stamps.TimeProvider = TimeProvider.System);
    }

    public async Task DisposeAsync()
    {
        Dispose();
        await Running.DisposeAsync();
        await Mail.DisposeAsync();
    }

    public void Dispose() => Kim.Dispose();

    /// <summary>Records a visit of one hour ago, by the form.</summary>
    /// <param name="email">Where the patient agreed to be asked; empty: nowhere.</param>
    public async Task<PageRead> RecordAsync(string email, params (string Name, string Value)[] more)
    {
        var form = await Kim.Browser.ReadAsync("/staff/visits/new");
        (string Name, string Value)[] asked = email.Length > 0 ? [("email", email), ("agreed", "yes")] : [];
        (string Name, string Value)[] ticked = more.Length > 0 ? more : [("found", "left:suction")];
        return await Kim.Browser.PostAsync("/staff/visits", form.FormTo("/staff/visits")
            .Append(new("when", $"{Clock.GetUtcNow().AddHours(-1):yyyy-MM-dd'T'HH:mm}")).Concat(asked.Concat(ticked).Select(f => KeyValuePair.Create(f.Name, f.Value))));
    }

    /// <summary>Moves the clock to an hour of a later day, and looks as the service does every minute.</summary>
    /// <returns>What the server took meanwhile for an address, its text on one line.</returns>
    public async Task<IReadOnlyList<string>> MoveAsync(int days, int hour, string email)
    {
        var before = Mail.Taken().Count;
        var to = Clock.GetUtcNow().UtcDateTime.Date.AddDays(days).AddHours(hour);
        Clock.Set(new DateTimeOffset(to, TimeSpan.Zero));
        await LookAsync();
        return [.. Mail.Taken().Skip(before).Select(m => m.Text).Where(t => t.Contains($"To: {email}", StringComparison.Ordinal)).Select(Unfolded)];
    }

    public Task LookAsync() => Running.Services.GetRequiredService<CheckInWatch>().LookAsync(default);

    /// <summary>A browser in which the link of a message was opened.</summary>
    public async Task<(Patient Patient, PageRead Question)> OpenAsync(string message)
    {
        var patient = Running.NewPatient();
        var page = await patient.ReadAsync(LinkIn(message));
        return (patient, await patient.PostAsync("/open-check-in", page.FormTo("/open-check-in")));
    }

    public static Task<PageRead> ReplyAsync(Patient patient, PageRead question, string answer)
    {
        ArgumentNullException.ThrowIfNull(patient);
        ArgumentNullException.ThrowIfNull(question);
        return patient.PostAsync("/check-in", question.FormTo("/check-in").Append(new("answer", answer)));
    }

    public async Task<FollowUp> FollowUpOfAsync(string email) => (await Part<IFollowUps>().AllAsync(default)).Single(f => f.Email == email);

    public async Task<IReadOnlyList<AuditEntry>> AuditAsync() => (await Part<IAuditTrail>().ReadAsync(default)).Entries;

    public T Part<T>()
        where T : notnull => Running.Services.GetRequiredService<T>();

    public static string LinkIn(string message) => Link().Match(message).Value;

    public static string StopIn(string message) => Stop().Match(message).Value;

    /// <summary>A text without the line breaks of its transfer (RFC 2045, 6.7; RFC 5322, 2.2.3).</summary>
    static string Unfolded(string text) => text.Replace("=\r\n", "", StringComparison.Ordinal).Replace("\r\n ", " ", StringComparison.Ordinal).Replace("=3D", "=", StringComparison.Ordinal);

    [GeneratedRegex("/check-in/[\\w-]{43}")]
    private static partial Regex Link();

    [GeneratedRegex("/stop-messages/[\\w-]{43}")]
    private static partial Regex Stop();
}
