using System.Net;
using System.Net.Http.Headers;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Systems;

/// <summary>One of the clinic's own systems, with its token.</summary>
sealed class ReadingSystem(RunningService service, string? token) : IDisposable
{
    readonly HttpClient _client = new() { BaseAddress = service.Address };

    public async Task<SystemRead> GetAsync(string path, string? known = null, HttpMethod? method = null)
    {
        using var request = new HttpRequestMessage(method ?? HttpMethod.Get, new Uri("/api/clinic" + path, UriKind.Relative));
        if (token is not null)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
        if (known is not null)
            request.Headers.IfNoneMatch.ParseAdd(known);
        using var answer = await _client.SendAsync(request);
        return new SystemRead(
            answer.StatusCode, answer.Content.Headers.ContentType?.MediaType ?? "", await answer.Content.ReadAsStringAsync(), answer.Headers.ETag?.ToString(),
            answer.Headers.WwwAuthenticate.ToString(), answer.Headers.RetryAfter?.ToString());
    }

    public void Dispose() => _client.Dispose();
}

sealed record SystemRead(HttpStatusCode Status, string MediaType, string Body, string? Tag, string Challenge, string? RetryAfter);
