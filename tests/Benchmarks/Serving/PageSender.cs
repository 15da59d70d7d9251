using System.Net;
using System.Text.RegularExpressions;

namespace Benchmarks.Serving;

/// <summary>A patient's browser with JavaScript: opens the page, then answers question after question by the script's post.</summary>
sealed partial class PageSender : ITurnSender
{
    const int TurnsAConversation = 6;

    readonly Uri _address;
    HttpClient _client = new();
    string _page = string.Empty;
    int _turn;

    public PageSender(Uri address) => _address = address;

    public async Task PrepareAsync()
    {
        if (_turn++ % TurnsAConversation != 0)
            return;
        _client.Dispose();
        _client = new HttpClient(new SocketsHttpHandler { CookieContainer = new CookieContainer(), AllowAutoRedirect = false });
        _client.DefaultRequestHeaders.Add("X-Part", "1");
        _page = await _client.GetStringAsync(_address);
    }

    public async Task SendAsync()
    {
        using var fields = new FormUrlEncodedContent(Fields(_page));
        using var response = await _client.PostAsync(new Uri(_address, "/answer"), fields);
        var answer = await response.Content.ReadAsStringAsync();
        if (response.Headers.TryGetValues("X-Next", out var next))
            answer = await _client.GetStringAsync(new Uri(_address, next.First()));
        else if (!response.IsSuccessStatusCode)
            throw new InvalidOperationException($"{(int)response.StatusCode} from the page: {answer}");
        _page = answer;
    }

    public void Dispose() => _client.Dispose();

    /// <summary>What a person without any sign would send: the hidden fields, "none of these", the last plain option, an age.</summary>
    static IEnumerable<KeyValuePair<string, string>> Fields(string page)
    {
        var form = NowForm().Match(page).Value;
        if (form.Length == 0)
            throw new InvalidOperationException($"The page asks nothing: {page}");
        var inputs = Input().Matches(form).Select(m => (Tag: m.Value, Name: Of(m.Value, "name"), Value: Of(m.Value, "value"))).ToList();
        foreach (var input in inputs.Where(i => i.Tag.Contains("type=\"hidden\"", StringComparison.Ordinal)))
            yield return new(input.Name, input.Value);
        if (inputs.Any(i => i.Name == "none"))
            yield return new("none", "yes");
        foreach (var radios in inputs.Where(i => i.Tag.Contains("type=\"radio\"", StringComparison.Ordinal) && i.Value != "?").GroupBy(i => i.Name))
            yield return new(radios.Key, radios.Last().Value);
        foreach (var age in inputs.Where(i => i.Name == "n:age"))
            yield return new(age.Name, "34");
    }

    static string Of(string tag, string attribute) =>
        WebUtility.HtmlDecode(Regex.Match(tag, $"{attribute}=\"([^\"]*)\"").Groups[1].Value);

    [GeneratedRegex("""id="now".*?</form>""", RegexOptions.Singleline)]
    private static partial Regex NowForm();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Input();
}
