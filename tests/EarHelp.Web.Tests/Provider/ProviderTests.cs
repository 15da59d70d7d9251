using System.Net;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Provider;

/// <summary>Staff sign in at the clinic's own provider, which is another process.</summary>
public sealed class ProviderTests(ProviderProcess provider) : IClassFixture<ProviderProcess>, IAsyncLifetime, IDisposable
{
    readonly string _secret = Path.GetTempFileName();
    RunningService _service = null!;

    public async Task InitializeAsync()
    {
        await File.WriteAllTextAsync(_secret, ProviderProcess.Secret + "\n");
        _service = await RunningService.StartAsync(settings: Settings(provider.Address.ToString(), ProviderProcess.Client));
    }

    public async Task DisposeAsync() => await _service.DisposeAsync();

    public void Dispose() => File.Delete(_secret);

    [Fact]
    public async Task Who_has_a_role_there_is_let_in_with_the_roles_that_the_provider_says()
    {
        await provider.NextAsync("s1", "Wanda Quist", "Front desk", "Choir");
        using var browser = new Browser(_service.Address);
        Assert.Contains("Sign in with your account of the clinic", await browser.ReadAsync("/staff/sign-in"), StringComparison.Ordinal);

        await browser.ReadAsync("/staff/provider");

        Assert.Contains("Your roles: Desk.", await browser.ReadAsync("/staff"), StringComparison.Ordinal);
        var me = await browser.ReadAsync("/staff/me");
        Assert.Contains("Your password and your roles are kept there", me, StringComparison.Ordinal);
        Assert.DoesNotContain("/staff/me/password", me, StringComparison.Ordinal);
        var account = Assert.Single(await AccountsAsync());
        Assert.Equal(("Wanda Quist", true, null, StaffRole.Desk), (account.ShownName, account.IsFromProvider, account.PasswordHash, Assert.Single(account.Roles)));
        AuditDeed[] deeds = [AuditDeed.Joined, AuditDeed.SignedIn];
        Assert.Equal(deeds, (await AuditAsync()).Select(e => e.Deed));
    }

    [Fact]
    public async Task Roles_follow_the_provider_at_the_next_sign_in_and_who_has_none_any_more_is_out_at_once()
    {
        await provider.NextAsync("s2", "Ravi Holt", "Front desk");
        using var browser = new Browser(_service.Address);
        await browser.ReadAsync("/staff/provider");

        await provider.NextAsync("s2", "Ravi Holt", "Doctors", "Front desk");
        await browser.ReadAsync("/staff/provider");
        StaffRole[] both = [StaffRole.Desk, StaffRole.Clinician];
        Assert.Equal(both, Assert.Single(await AccountsAsync()).Roles);

        await provider.NextAsync("s2", "Ravi Holt");
        using var elsewhere = new Browser(_service.Address);
        Assert.Contains("has no role here", await elsewhere.ReadAsync("/staff/provider"), StringComparison.Ordinal);
        Assert.Contains("This page is not for your role", await browser.ReadAsync("/staff/desk"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_has_no_role_or_is_refused_there_gets_no_account()
    {
        using var browser = new Browser(_service.Address);

        await provider.NextAsync("s3", "Somebody Else", "Choir");
        var without = await browser.ReadAsync("/staff/provider");
        await provider.NextAsync("nobody", "Nobody");
        var refused = await browser.ReadAsync("/staff/provider");

        Assert.Contains("has no role here", without, StringComparison.Ordinal);
        Assert.Contains("That did not work. Try again", refused, StringComparison.Ordinal);
        Assert.Empty(await AccountsAsync());
        Assert.All(await AuditAsync(), e => Assert.Equal((Actor.Service, AuditDeed.SignInRefused), (e.Who, e.Deed)));
    }

    [Fact]
    public async Task A_closed_account_stays_out_whatever_the_provider_says()
    {
        await provider.NextAsync("s4", "Ines Roe", "Front desk");
        using var browser = new Browser(_service.Address);
        await browser.ReadAsync("/staff/provider");
        var store = _service.Services.GetRequiredService<IStaffStore>();
        var account = Assert.Single(await AccountsAsync());
        await store.PutAsync(account with { Version = account.Version + 1, State = StaffState.Closed }, default);

        var refused = await browser.ReadAsync("/staff/provider");

        Assert.Contains("was closed here", refused, StringComparison.Ordinal);
        Assert.Contains("Name to sign in with", await browser.ReadAsync("/staff"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_answer_that_this_browser_did_not_ask_for_is_not_taken()
    {
        using var browser = new Browser(_service.Address);

        var invented = await browser.ReadAsync("/staff/provider/back?code=guessed&state=guessed");

        Assert.Contains("That did not work. Try again", invented, StringComparison.Ordinal);
        Assert.Empty(await AccountsAsync());
    }

    [Fact]
    public async Task A_provider_that_cannot_be_reached_is_said_and_the_password_page_is_one_step_away()
    {
        await using var service = await RunningService.StartAsync(settings: Settings("http://127.0.0.1:9/", ProviderProcess.Client));
        using var browser = new Browser(service.Address);

        var page = await browser.ReadAsync("/staff/provider");

        Assert.Contains("That did not work. Try again, or sign in here", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/staff/sign-in\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_settings_there_is_no_such_way()
    {
        await using var service = await RunningService.StartAsync();
        using var browser = new Browser(service.Address);

        Assert.DoesNotContain("account of the clinic", await browser.ReadAsync("/staff/sign-in"), StringComparison.Ordinal);
        Assert.Contains("<title>", await browser.ReadAsync("/staff/provider"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, browser.Status);
    }

    [Theory]
    [InlineData("sign-in-client", "", "--sign-in-client is needed")]
    [InlineData("sign-in-secret-file", "/nowhere/secret", "cannot be read")]
    [InlineData("sign-in-roles", "desk", "write a role, =, and its name")]
    [InlineData("sign-in-roles", "porter=Porters", "Roles: desk, clinician, author, approver, administrator")]
    [InlineData("sign-in-roles", "desk=A, clinician=A", "\"A\" stands twice")]
    [InlineData("sign-in-provider", "http://provider.example.org/", "begins with https://")]
    [InlineData("sign-in-provider", "", "no provider")]
    public void A_setting_that_cannot_be_used_is_named_with_the_mend(string name, string value, string told)
    {
        var settings = new Dictionary<string, string?>
        {
            ["sign-in-provider"] = provider.Address.ToString(),
            ["sign-in-client"] = ProviderProcess.Client,
            ["sign-in-secret-file"] = _secret,
            ["sign-in-roles"] = "desk=Front desk",
        };
        settings[name] = value;

        var fault = Assert.Throws<SettingsException>(() => Web.Provider.ProviderSettings.Read(new ConfigurationBuilder().AddInMemoryCollection(settings).Build()));

        Assert.Contains(told, fault.Message, StringComparison.Ordinal);
    }

    string[] Settings(string address, string client) =>
        ["--sign-in-provider", address, "--sign-in-client", client, "--sign-in-secret-file", _secret, "--sign-in-roles", "desk=Front desk, clinician=Doctors, administrator=Keepers"];

    async Task<IReadOnlyList<StaffAccount>> AccountsAsync() => await _service.Services.GetRequiredService<IStaffStore>().AllAsync(default);

    async Task<IReadOnlyList<AuditEntry>> AuditAsync() => (await _service.Services.GetRequiredService<IAuditTrail>().ReadAsync(default)).Entries;

    /// <summary>Follows redirects from one site to the other and back, as a browser does.</summary>
    sealed class Browser(Uri address) : IDisposable
    {
        readonly HttpClient _client = new(new SocketsHttpHandler { CookieContainer = new CookieContainer() }) { BaseAddress = address };

        public HttpStatusCode Status { get; private set; }

        public async Task<string> ReadAsync(string path)
        {
            using var answer = await _client.GetAsync(new Uri(path, UriKind.Relative));
            Status = answer.StatusCode;
            return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        }

        public void Dispose() => _client.Dispose();
    }
}
