using System.Collections.Concurrent;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace EarHelp.Web.Tests.Faults;

/// <summary>A bad way between browsers and a service: it drops, cuts, delays, doubles and reorders what passes, by a fixed seed.</summary>
sealed class UnkindProxy : IAsyncDisposable
{
    /// <summary>Of a hundred requests.</summary>
    const int Suffering = 25;

    const int LongestDelayMilliseconds = 120;
    const int OvertakenBy = 3;

    static readonly Unkindness[] Kinds = Enum.GetValues<Unkindness>();

    readonly Uri _service;
    readonly WebApplication _app;
    readonly HttpClient _way;
    readonly Random _chance = new(20261127);
    readonly ConcurrentDictionary<Unkindness, int> _done = new();
    readonly ConcurrentBag<Task> _later = [];
    long _passed;

    UnkindProxy(Uri service)
    {
        _service = service;
        _way = Ways.NewClient(service);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _app = builder.Build();
        _app.Run(PassAsync);
    }

    public Uri Address => new(_app.Urls.Single());

    /// <summary>What it did, and how often.</summary>
    public string Told => string.Join(", ", _done.OrderBy(d => d.Key).Select(d => string.Create(CultureInfo.InvariantCulture, $"{d.Key} {d.Value}")));

    public bool HasDoneEverything => Kinds.All(_done.ContainsKey);

    public static async Task<UnkindProxy> StartAsync(Uri service)
    {
        var proxy = new UnkindProxy(service);
        await proxy._app.StartAsync();
        return proxy;
    }

    public async ValueTask DisposeAsync()
    {
        await Task.WhenAll(_later);
        await _app.DisposeAsync();
        _way.Dispose();
    }

    async Task PassAsync(HttpContext context)
    {
        var kind = NextKind();
        if (kind is { } done)
            _done.AddOrUpdate(done, 1, (_, count) => count + 1);
        var request = await TakenRequest.TakeAsync(context.Request);
        try
        {
            await PassAsync(context, request, kind);
        }
        catch (Exception fault) when (fault is HttpRequestException or IOException or OperationCanceledException)
        {
            context.Abort();
        }
        finally
        {
            Interlocked.Increment(ref _passed);
        }
    }

    async Task PassAsync(HttpContext context, TakenRequest request, Unkindness? kind)
    {
        if (kind == Unkindness.LosesRequest)
        {
            context.Abort();
            return;
        }

        if (kind == Unkindness.Delays)
            await Task.Delay(NextDelay());
        if (kind == Unkindness.HoldsRequest)
            await OvertakenAsync();
        var twin = kind == Unkindness.Doubles ? SendQuietlyAsync(request) : Task.CompletedTask;
        using var answer = await SendAsync(request);
        await twin;
        if (kind == Unkindness.HoldsAnswer)
            await OvertakenAsync();
        if (kind == Unkindness.RepeatsLater)
            _later.Add(RepeatAsync(request));
        if (kind == Unkindness.LosesAnswer)
            context.Abort();
        else
            await AnswerAsync(context, answer, isCut: kind == Unkindness.CutsAnswer);
    }

    static async Task AnswerAsync(HttpContext context, HttpResponseMessage answer, bool isCut)
    {
        var body = await answer.Content.ReadAsByteArrayAsync();
        context.Response.StatusCode = (int)answer.StatusCode;
        foreach (var (name, values) in answer.Headers.Where(h => h.Key is "Set-Cookie" or "Location" or "X-Next"))
            context.Response.Headers[name] = values.ToArray();
        context.Response.ContentType = answer.Content.Headers.ContentType?.ToString();
        context.Response.ContentLength = body.Length;
        await context.Response.Body.WriteAsync(body.AsMemory(0, isCut ? body.Length / 2 : body.Length));
        if (!isCut)
            return;
        await context.Response.Body.FlushAsync();
        context.Abort();
    }

    /// <summary>Until others have passed; nobody waits for ever.</summary>
    async Task OvertakenAsync()
    {
        var until = Interlocked.Read(ref _passed) + OvertakenBy;
        for (var waited = 0; waited < 30 && Interlocked.Read(ref _passed) < until; waited++)
            await Task.Delay(10);
    }

    async Task RepeatAsync(TakenRequest request)
    {
        await Task.Delay(NextDelay() * 5);
        await SendQuietlyAsync(request);
    }

    async Task SendQuietlyAsync(TakenRequest request)
    {
        try
        {
            using var nobodyReads = await SendAsync(request);
        }
        catch (Exception fault) when (fault is HttpRequestException or IOException or OperationCanceledException)
        {
            // The service is down at this moment; nobody waits for this answer.
        }
    }

    async Task<HttpResponseMessage> SendAsync(TakenRequest request)
    {
        using var sent = request.For(_service);
        return await _way.SendAsync(sent);
    }

    Unkindness? NextKind()
    {
        lock (_chance)
            return _chance.Next(100) < Suffering ? Kinds[_chance.Next(Kinds.Length)] : null;
    }

    int NextDelay()
    {
        lock (_chance)
            return _chance.Next(5, LongestDelayMilliseconds);
    }

    /// <summary>A request that can be sent as often as one likes.</summary>
    sealed record TakenRequest(string Method, string Path, byte[] Body, IReadOnlyList<(string Name, string Value)> Headers, string? BodyType)
    {
        public static async Task<TakenRequest> TakeAsync(HttpRequest request)
        {
            using var body = new MemoryStream();
            await request.Body.CopyToAsync(body);
            return new(
                request.Method,
                request.Path + request.QueryString,
                body.ToArray(),
                [.. request.Headers.Where(h => h.Key is "Cookie" or "X-Part").Select(h => (h.Key, h.Value.ToString()))],
                request.ContentType);
        }

        public HttpRequestMessage For(Uri service)
        {
            var message = new HttpRequestMessage(new HttpMethod(Method), new Uri(service, Path));
            foreach (var (name, value) in Headers)
                message.Headers.Add(name, value);
            if (Body.Length > 0)
            {
                message.Content = new ByteArrayContent(Body);
                message.Content.Headers.TryAddWithoutValidation("Content-Type", BodyType);
            }

            return message;
        }
    }
}
