using System.Text.Json;
using Microsoft.AspNetCore.WebUtilities;

namespace EarHelp.Web.Systems;

/// <summary>What went wrong, for the programmer of a system: problem details of RFC 9457.</summary>
static class SystemProblem
{
    internal const string NoToken = "Send the token of this system in the header Authorization, after the word Bearer. An administrator makes one.";
    internal const string WrongToken = "This token opens nothing, or not any more. An administrator makes a new one.";
    internal const string NoSuchConversation = "There is no such conversation, or nothing that could be read of it yet.";
    internal const string WrongLimit = "The parameter limit is a whole number from 1 to 200.";
    internal const string WrongDay = "The day is written as year, month and day: 2026-11-20.";

    static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    /// <param name="detail">Which part of the request it is about, and the mend; null: the status says it all.</param>
    internal static async Task SendAsync(HttpContext context, int status, string? detail = null)
    {
        var problem = new { type = "about:blank", title = ReasonPhrases.GetReasonPhrase(status), status, detail = detail ?? DetailOf(status) };
        var bytes = JsonSerializer.SerializeToUtf8Bytes(problem, Json);
        context.Response.StatusCode = status;
        context.Response.ContentType = "application/problem+json";
        context.Response.ContentLength = bytes.Length;
        await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
    }

    static string DetailOf(int status) => status switch
    {
        StatusCodes.Status404NotFound => "There is nothing at this address. The addresses stand in openapi.json beside it.",
        StatusCodes.Status405MethodNotAllowed => "This address is only read: use GET.",
        StatusCodes.Status429TooManyRequests => "Too many requests. Wait as long as the header Retry-After says.",
        StatusCodes.Status503ServiceUnavailable => "Nothing can be read at this moment. Try again later; nothing was changed.",
        _ => "The service could not answer. Its log says more.",
    };
}
