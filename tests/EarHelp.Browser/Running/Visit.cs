using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace EarHelp.Browser.Running;

/// <summary>One person's visit to the page in a browser of their own. Controls are found as a person finds them: by their words.</summary>
public sealed class Visit : IAsyncDisposable
{
    const int MostScreens = 45;

    readonly List<string> _requested = [];
    readonly List<string> _complaints = [];

    Visit(IBrowserContext context, IPage page, Device device, Uri address)
    {
        Context = context;
        Page = page;
        Device = device;
        Address = address;
        page.Request += (_, request) => _requested.Add(request.Url);
        page.PageError += (_, error) => _complaints.Add(error);
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("status of 4", StringComparison.Ordinal))
                _complaints.Add(message.Text);
        };
    }

    public IBrowserContext Context { get; }

    public IPage Page { get; }

    public Device Device { get; }

    public Uri Address { get; }

    /// <summary>Every address that the browser asked for.</summary>
    public IReadOnlyList<string> Requested => _requested;

    /// <summary>What the browser's console complained about, e.g. a breach of the content security policy.</summary>
    public IReadOnlyList<string> Complaints => _complaints;

    public ILocator Now => Page.Locator("#now");

    public ILocator Plan => Page.Locator("#plan");

    /// <summary>The screen that is asked now, by its name.</summary>
    public Task<string?> ScreenAsync() => Now.Locator("input[name=screen]").GetAttributeAsync("value");

    public static async Task<Visit> BeginAsync(Service service, Device device)
    {
        ArgumentNullException.ThrowIfNull(service);
        ArgumentNullException.ThrowIfNull(device);
        var visit = await OpenAsync(service.Browser, device, service.Address);
        await visit.Page.GotoAsync(service.Address.ToString());
        return visit;
    }

    /// <summary>The page as it stands, word for word and in its own style, in a window where a script can look at it.</summary>
    public async Task<Visit> TwinWithScriptAsync()
    {
        var written = await Page.ContentAsync();
        var twin = await OpenAsync(Context.Browser!, Device with { HasScript = true }, Address);
        await twin.Page.RouteAsync("**/*.js", route => route.AbortAsync());
        var address = new Uri(Page.Url).GetLeftPart(UriPartial.Query);
        await twin.Page.RouteAsync(address, route => route.FulfillAsync(new() { Body = written, ContentType = "text/html; charset=utf-8" }));
        await twin.Page.GotoAsync(Page.Url);
        Assert.Equal(await Page.Locator("body").InnerTextAsync(), await twin.Page.Locator("body").InnerTextAsync());
        return twin;
    }

    static async Task<Visit> OpenAsync(IBrowser browser, Device device, Uri address)
    {
        var context = await browser.NewContextAsync(new()
        {
            ViewportSize = new() { Width = device.Width, Height = device.Height },
            JavaScriptEnabled = device.HasScript,
            ColorScheme = device.Colours,
            ForcedColors = device.Forced,
            ReducedMotion = device.Motion,
            Locale = "en-GB",
            TimezoneId = "Europe/London",
            HasTouch = device.Width < 500,
        });
        context.SetDefaultTimeout(30_000);
        return new Visit(context, await context.NewPageAsync(), device, address);
    }

    /// <summary>Takes the first page's way into the conversation, up to the form.</summary>
    public async Task StartAsync()
    {
        if (await Now.CountAsync() == 0)
            await Page.GetByRole(AriaRole.Button, new() { Name = "Start", Exact = true }).ClickAsync();
        await Expect(Now).ToBeVisibleAsync();
    }

    public async Task FillFormAsync(Person person)
    {
        ArgumentNullException.ThrowIfNull(person);
        await Now.GetByRole(AriaRole.Radio, new() { Name = person.Whose, Exact = true }).CheckAsync();
        await Now.GetByRole(AriaRole.Group, new() { Name = "How old" }).GetByRole(AriaRole.Textbox).FillAsync(person.Age);
        await Now.GetByRole(AriaRole.Radio, new() { Name = person.Place }).First.CheckAsync();
        await ContinueAsync();
    }

    /// <summary>Answers the question of now as the person would, and goes on.</summary>
    public async Task AnswerAsync(Person person)
    {
        ArgumentNullException.ThrowIfNull(person);
        var screen = await ScreenAsync() ?? string.Empty;
        if (person.IsUnsure && await Now.GetByLabel("ot sure").CountAsync() > 0)
            await ChooseAllUnsureAsync();
        else if (!person.Choices.TryGetValue(screen, out var labels) || !await ChooseOfferedAsync(labels))
            await ChooseClearAsync();
        await ContinueAsync();
    }

    public async Task ChooseAsync(params IEnumerable<string> labels)
    {
        foreach (var label in labels)
            await Labelled(label).Locator("input").CheckAsync();
    }

    /// <summary>Chooses what is still offered: an entry that no longer matters is left out of its screen.</summary>
    async Task<bool> ChooseOfferedAsync(IEnumerable<string> labels)
    {
        var any = false;
        foreach (var label in labels)
        {
            if (await Labelled(label).CountAsync() == 0)
                continue;
            await ChooseAsync(label);
            any = true;
        }

        return any;
    }

    /// <summary>The entry that begins with these words.</summary>
    ILocator Labelled(string label) => Now.Locator("label.pick, .point label").Filter(new() { HasTextRegex = new Regex(@"^\s*" + Regex.Escape(label)), HasNotText = "ot sure" }).First;

    /// <summary>Presses the button of the question, and waits for the next one, the plan, or what was wrong.</summary>
    public async Task ContinueAsync()
    {
        var turn = await Now.Locator("input[name=turn]").GetAttributeAsync("value");
        await Now.GetByRole(AriaRole.Button, new() { Name = "Continue" }).ClickAsync();
        await Page.Locator($"#now input[name=turn]:not([value='{turn}']), #plan, #faults").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
    }

    /// <summary>Answers question after question; looks at each state on the way.</summary>
    /// <returns>How many screens after the form it took.</returns>
    public async Task<int> WalkToPlanAsync(Person person, Func<Task>? look = null)
    {
        for (var screens = 0; screens < MostScreens; screens++)
        {
            if (look is not null)
                await look();
            if (await Plan.CountAsync() > 0)
                return screens;
            await AnswerAsync(person);
        }

        throw new InvalidOperationException($"{person.Name} was asked more than {MostScreens} screens; the last is \"{await ScreenAsync()}\".");
    }

    public async Task<Visit> WholeWayAsync(Person person)
    {
        await StartAsync();
        await FillFormAsync(person);
        await WalkToPlanAsync(person);
        return this;
    }

    /// <summary>Keeps a picture of the whole page, to be looked at.</summary>
    public async Task KeepPictureAsync(string state) =>
        await Page.ScreenshotAsync(new() { Path = Path.Combine(Folders.Screens, $"{state}-{Device.Name}.png"), FullPage = true });

    public async ValueTask DisposeAsync() => await Context.DisposeAsync();

    async Task ChooseAllUnsureAsync()
    {
        foreach (var unsure in await Now.GetByLabel("ot sure").AllAsync())
            await unsure.CheckAsync();
    }

    /// <summary>"None of these", else a plain "no", else the last option that is not "not sure".</summary>
    async Task ChooseClearAsync()
    {
        var none = Now.Locator(".apart input[name=none]");
        if (await none.CountAsync() > 0)
        {
            await none.CheckAsync();
            return;
        }

        var no = Now.GetByRole(AriaRole.Radio, new() { Name = "No", Exact = true });
        await (await no.CountAsync() > 0 ? no.First : Now.Locator("input[type=radio]:not([value='?'])").Last).CheckAsync();
    }
}
