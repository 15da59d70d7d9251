using System.Net;
using EarHelp.Web.Tests.Nodes;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Faults;

/// <summary>
/// A person whose browser runs the page's script: a turn is one post. What is not answered is sent again as the script does it, as a whole
/// page with the same fields, until it is answered.
/// </summary>
sealed class Person(HttpClient way, Acknowledged told, IReadOnlyDictionary<string, string[]> answers)
{
    /// <summary>Stands on whatever page is shown in the place of an answer (content/clinic.md).</summary>
    const string EmergencyNumber = "999";

    static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(150);

    string _cookie = string.Empty;

    public PageRead? Page { get; private set; }

    /// <summary>The first page and its form. Whoever is at the plan puts it away and begins another conversation.</summary>
    public async Task BeginAsync()
    {
        _cookie = string.Empty;
        await ReadAsync("/");
        await SendAsync("/answer", [.. Page!.Hidden, new("a:about whom", "me"), new("n:age", "34"), new("a:where now", "near the clinic")]);
    }

    /// <summary>The next turn.</summary>
    public async Task GoOnAsync()
    {
        if (Page!.IsPlan)
            await BeginAsync();
        else if (Patient.Filled(Page, answers) is var (address, fields))
            await SendAsync(address, fields);
    }

    /// <summary>Two tabs of one browser show the same question, and both answer it at once.</summary>
    public async Task GoOnInTwoTabsAsync()
    {
        var other = new Person(way, told, answers) { _cookie = _cookie };
        await other.ReadAsync("/plan");
        if (Page!.IsPlan || other.Page!.IsPlan)
            return;
        await Task.WhenAll(GoOnAsync(), other.GoOnAsync());
        await ReadAsync("/plan");
    }

    public async Task ReachPlanAsync()
    {
        await BeginAsync();
        while (!Page!.IsPlan)
            await GoOnAsync();
    }

    /// <summary>A page, asked for until it comes.</summary>
    public async Task<PageRead> ReadAsync(string address)
    {
        while (true)
        {
            if (await TryAsync(HttpMethod.Get, address, null, isPart: false) is { } page)
                return Page = page;
            await Task.Delay(Pause);
        }
    }

    /// <summary>A form that is no turn, sent until it is answered.</summary>
    public async Task<PageRead> PostAsync(string address, IReadOnlyList<KeyValuePair<string, string>> fields)
    {
        while (true)
        {
            if (await TryAsync(HttpMethod.Post, address, fields, isPart: false) is { } page)
                return Page = page;
            await Task.Delay(Pause);
        }
    }

    async Task SendAsync(string address, IReadOnlyList<KeyValuePair<string, string>> fields)
    {
        for (var isPart = true; ; isPart = false)
        {
            if (await TryAsync(HttpMethod.Post, address, fields, isPart) is { } page)
            {
                Page = page;
                told.Add(fields.Single(f => f.Key == "turn").Value);
                return;
            }

            told.Refuse();
            await Task.Delay(Pause);
        }
    }

    /// <returns>Null: it was not answered, or with the emergency page.</returns>
    async Task<PageRead?> TryAsync(HttpMethod method, string address, IReadOnlyList<KeyValuePair<string, string>>? fields, bool isPart)
    {
        try
        {
            using var request = new HttpRequestMessage(method, new Uri(address, UriKind.Relative));
            if (_cookie.Length > 0)
                request.Headers.Add("Cookie", _cookie);
            if (isPart)
                request.Headers.Add("X-Part", "1");
            if (fields is not null)
                request.Content = new FormUrlEncodedContent(fields);
            using var answer = await way.SendAsync(request);
            if (answer.Headers.TryGetValues("Set-Cookie", out var set))
                _cookie = string.Join("; ", set.Select(c => c[..c.IndexOf(';', StringComparison.Ordinal)]));
            if (NextOf(answer) is { } next)
                return await FollowAsync(next);
            var page = new PageRead(answer.StatusCode, new Uri(way.BaseAddress!, address), await answer.Content.ReadAsStringAsync(), answer);
            return answer.StatusCode switch
            {
                HttpStatusCode.OK or HttpStatusCode.Conflict => page,
                >= HttpStatusCode.InternalServerError when page.Text.Contains(EmergencyNumber, StringComparison.Ordinal) => null,
                var status => throw new InvalidOperationException($"{method} {address} was answered with {(int)status}: {page.Text}"),
            };
        }
        catch (Exception fault) when (fault is HttpRequestException or IOException or OperationCanceledException)
        {
            return null;
        }
    }

    /// <summary>The turn was taken: where it leads is asked for until it comes, as by somebody who loads the page again.</summary>
    async Task<PageRead> FollowAsync(string address)
    {
        while (true)
        {
            if (await TryAsync(HttpMethod.Get, address, null, isPart: false) is { } page)
                return page;
            await Task.Delay(Pause);
        }
    }

    static string? NextOf(HttpResponseMessage answer) =>
        answer.Headers.TryGetValues("X-Next", out var next) ? next.Single() : answer.Headers.Location?.ToString();
}
