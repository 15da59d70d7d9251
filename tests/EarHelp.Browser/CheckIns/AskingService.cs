using EarHelp.Browser.Running;
using EarHelp.Servers.Host;
using EarHelp.Web.CheckIns;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Browser.CheckIns;

/// <summary>A service whose clock is set by hand, with a real SMTP server in a process of its own.</summary>
public sealed class AskingService : Service
{
    readonly SetClock _clock = new();

    public SmtpProcess Mail { get; private set; } = null!;

    protected override IEnumerable<string> Settings =>
        ["--mail-server", $"127.0.0.1:{Mail.Port}", "--mail-from", "hello@mail.example.org", "--mail-certificate", Mail.Certificate, "--public-address", "http://localhost:5080/"];

    public override async Task InitializeAsync()
    {
        Mail = await SmtpProcess.StartAsync();
        await base.InitializeAsync();
    }

    public override async Task DisposeAsync()
    {
        await base.DisposeAsync();
        await Mail.DisposeAsync();
    }

    /// <summary>Sets the clock to an hour some days later, and looks as the service does every minute.</summary>
    public async Task MoveAsync(int days, int hour)
    {
        _clock.Now = new DateTimeOffset(_clock.Now.UtcDateTime.Date.AddDays(days).AddHours(hour), TimeSpan.Zero);
        await Part<CheckInWatch>().LookAsync(CancellationToken.None);
    }

    /// <summary>Who signed in stays so: the browser's own clock does not move.</summary>
    protected override void Configure(IServiceCollection services)
    {
        services.AddSingleton<TimeProvider>(_clock);
        services.ConfigureAll<CookieAuthenticationOptions>(cookies => cookies.TimeProvider = TimeProvider.System);
        services.Configure<SecurityStampValidatorOptions>(stamps => stamps.TimeProvider = TimeProvider.System);
    }

    /// <summary>Begins on a Tuesday in winter, when the clinic's clock is that of UTC.</summary>
    sealed class SetClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 11, 24, 10, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
