using EarHelp.Browser.Running;
using EarHelp.Servers.Host;
using EarHelp.Web.CheckIns;
using EarHelp.Web.Serving;
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

    /// <summary>Sets the clock, and looks as the service does every minute.</summary>
    public async Task MoveToAsync(DateTimeOffset moment)
    {
        _clock.Now = moment;
        await Part<CheckInWatch>().LookAsync(CancellationToken.None);
    }

    /// <summary>Asks the running service as the command line does.</summary>
    public HttpClient Socket() => SocketClient.To(ControlSocket.PathIn(Data));

    /// <summary>Who signed in stays so: the browser's own clock does not move.</summary>
    protected override void Configure(IServiceCollection services)
    {
        services.AddSingleton<TimeProvider>(_clock);
        services.ConfigureAll<CookieAuthenticationOptions>(cookies => cookies.TimeProvider = TimeProvider.System);
        services.Configure<SecurityStampValidatorOptions>(stamps => stamps.TimeProvider = TimeProvider.System);
    }

    /// <summary>
    /// Begins ten minutes before midnight on the eve of Good Friday 2027. The clinic is closed on Good Friday, open on Saturday, closed on Sunday and on
    /// Easter Monday; on the Sunday the clocks go forward. Source: the United Kingdom government's list "UK bank holidays".
    /// </summary>
    sealed class SetClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2027, 3, 25, 23, 50, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
