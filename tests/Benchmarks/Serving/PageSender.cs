using System.Net;
using System.Net.Http.Headers;
using System.Text.RegularExpressions;

namespace Benchmarks.Serving;

/// <summary>Browsers, one after another over one connection: each opens the page and answers question after question until the plan is due.</summary>
/// <param name="acknowledged">Takes each turn that was answered; null: nobody counts.</param>
/// <param name="hasScript">True: each turn is the one post of the page's script. False: the form's post and the page that it leads to.</param>
sealed partial class PageSender(Uri address, bool hasScript = true, AcknowledgedTurns? acknowledged = null) : ITurnSender
{
    readonly HttpClient _client = new(new SocketsHttpHandler { UseCookies = false, AllowAutoRedirect = false });
    string _cookie = string.Empty;
    FormUrlEncodedContent? _fields;
    string _turn = string.Empty;

    /// <summary>What the last turn was answered with.</summary>
    public string Page { get; private set; } = string.Empty;

    /// <summary>The form as it is posted.</summary>
    public async Task<string> FormAsync() => await _fields!.ReadAsStringAsync();

    /// <summary>Leaves the conversation as it is; the next one that is prepared is new.</summary>
    public void Leave() => Page = string.Empty;

    public async Task PrepareAsync()
    {
        var form = NowForm().Match(Page);
        if (!form.Success)
        {
            _cookie = string.Empty;
            using var first = await ReadAsync(HttpMethod.Get, "/", null);
            form = NowForm().Match(Page);
        }

        var fields = Fields(form.Value).ToList();
        _turn = fields.First(f => f.Key == "turn").Value;
        _fields = new FormUrlEncodedContent(fields);
    }

    public async Task SendAsync()
    {
        using var answer = await ReadAsync(HttpMethod.Post, "/answer", _fields);
        if (!hasScript && answer.Headers.Location is { } next)
            using (await ReadAsync(HttpMethod.Get, next.ToString(), null)) { }
        acknowledged?.Add(_turn);
    }

    public void Dispose() => _client.Dispose();

    async Task<HttpResponseMessage> ReadAsync(HttpMethod method, string path, HttpContent? body)
    {
        using var request = new HttpRequestMessage(method, new Uri(address, path)) { Content = body };
        if (hasScript)
            request.Headers.Add("X-Part", "1");
        if (_cookie.Length > 0)
            request.Headers.Add("Cookie", _cookie);
        var response = await _client.SendAsync(request);
        if ((int)response.StatusCode >= 400)
            throw new InvalidOperationException($"{(int)response.StatusCode} from {path}");
        TakeCookies(response.Headers);
        Page = await response.Content.ReadAsStringAsync();
        return response;
    }

    void TakeCookies(HttpResponseHeaders headers)
    {
        if (headers.TryGetValues("Set-Cookie", out var set))
            _cookie = string.Join("; ", set.Select(c => c[..c.IndexOf(';', StringComparison.Ordinal)]));
    }

    /// <summary>What a person without any sign would send: the hidden fields, "none of these", the last plain option, an age.</summary>
    static IEnumerable<KeyValuePair<string, string>> Fields(string form)
    {
        if (form.Length == 0)
            throw new InvalidOperationException("The first page asks nothing.");
        var inputs = Input().Matches(form).Select(m => (Tag: m.Value, Name: Of(Name().Match(m.Value)), Value: Of(Value().Match(m.Value)))).ToList();
        foreach (var input in inputs.Where(i => i.Tag.Contains("type=\"hidden\"", StringComparison.Ordinal)))
            yield return new(input.Name, input.Value);
        if (inputs.Any(i => i.Name == "none"))
            yield return new("none", "yes");
        foreach (var radios in inputs.Where(i => i.Tag.Contains("type=\"radio\"", StringComparison.Ordinal) && i.Value != "?").GroupBy(i => i.Name))
            yield return new(radios.Key, radios.Last().Value);
        if (inputs.Any(i => i.Name == "n:age"))
            yield return new("n:age", "34");
    }

    static string Of(Match attribute) => WebUtility.HtmlDecode(attribute.Groups[1].Value);

    [GeneratedRegex("""id="now".*?</form>""", RegexOptions.Singleline)]
    private static partial Regex NowForm();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex(""" name="([^"]*)""")]
    private static partial Regex Name();

    [GeneratedRegex(""" value="([^"]*)""")]
    private static partial Regex Value();
}
