using System.Net;
using System.Net.Security;

namespace EarHelp.Web.Tests.Running;

/// <summary>A person with a browser that has no JavaScript: loads pages, fills in forms, keeps one cookie.</summary>
public sealed class Patient : IDisposable
{
    readonly HttpClient _client;

    public Patient(Uri address, CookieContainer? cookies = null)
    {
        ArgumentNullException.ThrowIfNull(address);
        Cookies = cookies ?? new CookieContainer();
        var connections = new SocketsHttpHandler { CookieContainer = Cookies, AllowAutoRedirect = false };
        if (address.IsLoopback && address.Scheme == Uri.UriSchemeHttps)
            connections.SslOptions.RemoteCertificateValidationCallback = (_, _, _, errors) => !errors.HasFlag(SslPolicyErrors.RemoteCertificateNotAvailable); // The proxy of a test signs for itself.
        _client = new HttpClient(connections) { BaseAddress = address };
    }

    public CookieContainer Cookies { get; }

    /// <summary>Every address that was asked for.</summary>
    public List<string> Asked { get; } = [];

    public async Task<PageRead> ReadAsync(string address)
    {
        Asked.Add(address);
        return await FollowAsync(await _client.GetAsync(new Uri(address, UriKind.Relative)));
    }

    public async Task<PageRead> PostAsync(string address, IEnumerable<KeyValuePair<string, string>> fields) =>
        await FollowAsync(await SendAsync(address, fields));

    /// <summary>The answer itself, redirects not followed.</summary>
    public async Task<HttpResponseMessage> SendAsync(
        string address, IEnumerable<KeyValuePair<string, string>> fields, params (string Name, string Value)[] headers)
    {
        Asked.Add(address);
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = new FormUrlEncodedContent(fields) };
        foreach (var (name, value) in headers)
            request.Headers.Add(name, value);
        return await _client.SendAsync(request);
    }

    public Task<HttpResponseMessage> SendAsync(HttpRequestMessage request) => _client.SendAsync(request);

    /// <summary>An answer that goes on.</summary>
    public Task<HttpResponseMessage> StreamAsync(HttpRequestMessage request) => _client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);

    /// <summary>Fills in the question of a page and sends it.</summary>
    public Task<PageRead> AnswerAsync(PageRead page, params (string Name, string Value)[] answers)
    {
        ArgumentNullException.ThrowIfNull(page);
        return PostAsync("/answer", page.Hidden.Concat(answers.Select(a => KeyValuePair.Create(a.Name, a.Value))));
    }

    /// <summary>The first page and the form, filled in for oneself.</summary>
    public async Task<PageRead> BeginAsync(string words = "", string age = "34", string place = "near the clinic") =>
        await BeginAtAsync(await ReadAsync("/"), words, age, place);

    public Task<PageRead> BeginAtAsync(PageRead first, string words = "", string age = "34", string place = "near the clinic") =>
        AnswerAsync(first, ("a:about whom", "me"), ("n:age", age), ("a:where now", place), ("text", words));

    public Task<PageRead> GoOnAsync(PageRead page, IReadOnlyDictionary<string, string[]> answers)
    {
        var (address, fields) = Filled(page, answers);
        return PostAsync(address, fields);
    }

    /// <summary>Where the form of a page goes, and with which fields: what is not named is answered as clear, what was read back is right.</summary>
    public static (string Address, IReadOnlyList<KeyValuePair<string, string>> Fields) Filled(PageRead page, IReadOnlyDictionary<string, string[]> answers)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(answers);
        if (page.Screen == "read back")
            return ("/confirm", Confirmed(page, [.. page.Fields.Where(f => f.Name == "part").Select(f => f.Value)]));
        var sent = answers.TryGetValue(page.Screen, out var chosen) ? Choose(page, chosen) : Clear(page);
        return ("/answer", [.. page.Hidden, .. sent.Select(s => KeyValuePair.Create(s.Item1, s.Item2))]);
    }

    /// <summary>Says which parts of what was read back are right; without any, that nothing is.</summary>
    public Task<PageRead> ConfirmAsync(PageRead page, params string[] parts)
    {
        ArgumentNullException.ThrowIfNull(page);
        return PostAsync("/confirm", Confirmed(page, parts));
    }

    /// <summary>Answers until there is a plan; what is not named is answered as clear.</summary>
    public async Task<PageRead> ReachPlanAsync(PageRead page, IReadOnlyDictionary<string, string[]>? answers = null) =>
        (await WalkAsync(page, answers))[^1];

    /// <summary>As <see cref="ReachPlanAsync"/>, with every page on the way.</summary>
    public async Task<IReadOnlyList<PageRead>> WalkAsync(PageRead page, IReadOnlyDictionary<string, string[]>? answers = null)
    {
        var pages = new List<PageRead> { page };
        for (var screens = 0; screens < 45; screens++)
        {
            if (pages[^1].IsPlan)
                return pages;
            pages.Add(await GoOnAsync(pages[^1], answers ?? new Dictionary<string, string[]>()));
        }

        throw new InvalidOperationException($"No plan after 45 screens; the last ones are {string.Join(", ", pages.TakeLast(4).Select(p => p.Screen))}.");
    }

    public void Dispose() => _client.Dispose();

    static List<KeyValuePair<string, string>> Confirmed(PageRead page, string[] parts) =>
        [.. page.FormTo("/confirm"), KeyValuePair.Create("right", parts.Length > 0 ? "yes" : "no"), .. parts.Select(p => KeyValuePair.Create("part", p))];

    static IEnumerable<(string, string)> Choose(PageRead page, string[] values)
    {
        foreach (var (name, _, value) in page.Fields.Where(f => f.Type is "radio" or "checkbox"))
        {
            if (values.Contains(value) || (value == "yes" && values.Contains(name["a:".Length..])))
                yield return (name, value);
        }
    }

    /// <summary>"None of these", else "no", else the last option that is not "not sure".</summary>
    static IEnumerable<(string, string)> Clear(PageRead page)
    {
        if (page.Fields.Any(f => f.Name == "none"))
            return [("none", "yes")];
        var options = page.Fields.Where(f => f.Type == "radio" && f.Value != "?").ToList();
        if (options.Count == 0)
            return page.Fields.Where(f => f.Type == "text").Take(1).Select(f => (f.Name, "37"));
        var clear = options.FirstOrDefault(f => f.Value == "no");
        return [(options[^1].Name, clear.Value ?? options[^1].Value)];
    }

    async Task<PageRead> FollowAsync(HttpResponseMessage response)
    {
        for (var hops = 0; hops < 5 && response.Headers.Location is { } next; hops++)
        {
            Asked.Add(next.ToString());
            response = await _client.GetAsync(next);
        }

        var html = await response.Content.ReadAsStringAsync();
        return new PageRead(response.StatusCode, response.RequestMessage!.RequestUri!, html, response);
    }
}
