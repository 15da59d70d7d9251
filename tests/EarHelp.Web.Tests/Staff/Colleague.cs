using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Staff;

/// <summary>A member of staff with a browser without JavaScript, and an app that shows one-time codes.</summary>
/// <param name="clock">The clock of the app; null: the machine's.</param>
public sealed class Colleague(Patient browser, string name, Func<DateTimeOffset>? clock = null) : IDisposable
{
    public const string Password = "three quiet otters";

    /// <summary>No code is taken twice: the next ones are those of the next steps. Identity takes two steps to either side.</summary>
    int _codesShown;

    public Colleague(RunningService service, string name)
        : this(NewBrowser(service), name)
    {
    }

    /// <summary>The name to sign in with.</summary>
    public string Name => name;

    public Patient Browser => browser;

    /// <summary>The key of the one-time codes, as it was shown.</summary>
    public string Key { get; private set; } = string.Empty;

    public string NextCode() => OneTimeCode.Of(Key, clock?.Invoke() ?? DateTimeOffset.UtcNow, _codesShown++);

    /// <summary>Takes an invitation and signs in.</summary>
    public async Task<PageRead> JoinAsync(string code)
    {
        await TakeInvitationAsync(code);
        return await SignInAsync();
    }

    public async Task TakeInvitationAsync(string code)
    {
        var join = await Browser.ReadAsync("/staff/join");
        var key = await SendAsync("/staff/join", join, ("code", code), ("own-name", $"{name} of the clinic"), ("name", name), ("password", Password));
        _codesShown = -1;
        Key = Regex.Match(key.Html, "id=\"key\">(?<key>[^<]+)<").Groups["key"].Value;
        await SendAsync("/staff/join/confirm", key, ("code", NextCode()));
    }

    public async Task<PageRead> SignInAsync(string? password = null, string? code = null) =>
        await SendAsync("/staff/sign-in", await Browser.ReadAsync("/staff/sign-in"), ("name", name), ("password", password ?? Password), ("code", code ?? NextCode()));

    /// <summary>Fills in the form of a page that goes to an address.</summary>
    public Task<PageRead> SendAsync(string address, PageRead page, params (string Name, string Value)[] fields)
    {
        ArgumentNullException.ThrowIfNull(page);
        return Browser.PostAsync(address, page.FormTo(address).Concat(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))));
    }

    public void Dispose() => Browser.Dispose();

    static Patient NewBrowser(RunningService service)
    {
        ArgumentNullException.ThrowIfNull(service);
        return service.NewPatient();
    }
}
