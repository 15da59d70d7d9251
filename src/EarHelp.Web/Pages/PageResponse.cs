namespace EarHelp.Web.Pages;

/// <summary>Sends a page as it is: it may mix a secret with what a person typed, and so is never compressed.</summary>
static class PageResponse
{
    internal static Task SendAsync(HttpContext context, ReadOnlyMemory<byte> page, int status = StatusCodes.Status200OK)
    {
        var response = context.Response;
        response.StatusCode = status;
        response.ContentType = "text/html; charset=utf-8";
        response.ContentLength = page.Length;
        return HttpMethods.IsHead(context.Request.Method)
            ? Task.CompletedTask
            : response.Body.WriteAsync(page, context.RequestAborted).AsTask();
    }

    /// <summary>After a form that was taken: the page that a reload may ask for again.</summary>
    internal static Task GoToAsync(HttpContext context, string address)
    {
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = address;
        context.Response.ContentLength = 0;
        return Task.CompletedTask;
    }

    /// <summary>The same for a page that appends: it goes there by itself.</summary>
    internal static Task GoPartAsync(HttpContext context, string address)
    {
        context.Response.StatusCode = StatusCodes.Status200OK;
        context.Response.Headers["X-Next"] = address;
        context.Response.ContentLength = 0;
        return Task.CompletedTask;
    }

    internal static bool WantsPart(HttpContext context) => context.Request.Headers.ContainsKey("X-Part");
}
