using System.Security.Cryptography;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace EarHelp.Web.Systems;

/// <summary>Sends what a system asked for, or that it is still the same as it has (RFC 9110, 13.1.2).</summary>
static class SystemAnswer
{
    const int TagBytes = 16;

    /// <param name="same">What decides whether it is the same: the body without the moment of its writing.</param>
    internal static async Task SendAsync(HttpContext context, string contentType, ReadOnlyMemory<byte> body, ReadOnlyMemory<byte> same)
    {
        var tag = $"W/\"{Convert.ToHexStringLower(SHA256.HashData(same.Span)[..TagBytes])}\"";
        context.Response.Headers.ETag = tag;
        context.Response.Headers.CacheControl = "private, no-cache";
        if (IsKnown(context.Request.Headers.IfNoneMatch, tag))
        {
            context.Response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        context.Response.ContentType = contentType;
        context.Response.ContentLength = body.Length;
        await context.Response.Body.WriteAsync(body, context.RequestAborted);
    }

    static bool IsKnown(StringValues known, string tag) =>
        EntityTagHeaderValue.TryParseList(known, out var tags)
        && tags.Any(t => t.Equals(EntityTagHeaderValue.Any) || t.Compare(EntityTagHeaderValue.Parse(tag), useStrongComparison: false));
}
