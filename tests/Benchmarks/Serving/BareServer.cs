using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace Benchmarks.Serving;

/// <summary>The ceiling of the machine: a web server that answers whatever is posted with bytes that it holds.</summary>
static class BareServer
{
    public const string Name = "bare";

    /// <param name="bytesFile">What it answers with.</param>
    public static async Task ServeAsync(string address, string bytesFile)
    {
        var bytes = await File.ReadAllBytesAsync(bytesFile);
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        var app = builder.Build();
        app.Urls.Add(address);
        app.Run(async context =>
        {
            await context.Request.Body.CopyToAsync(Stream.Null, context.RequestAborted);
            context.Response.ContentType = "text/html; charset=utf-8";
            context.Response.ContentLength = bytes.Length;
            await context.Response.Body.WriteAsync(bytes, context.RequestAborted);
        });
        await app.RunAsync();
    }
}
