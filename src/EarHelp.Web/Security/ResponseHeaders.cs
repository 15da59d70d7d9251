namespace EarHelp.Web.Security;

/// <summary>The headers that every response carries, errors and static files too.</summary>
public static class ResponseHeaders
{
    const string ContentPolicy =
        "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self' data:; "
        + "form-action 'self'; frame-ancestors 'none'; base-uri 'none'; object-src 'none'";

    const string Permissions =
        "accelerometer=(), autoplay=(), camera=(), display-capture=(), encrypted-media=(), fullscreen=(), "
        + "geolocation=(), gyroscope=(), magnetometer=(), microphone=(), midi=(), payment=(), usb=(), xr-spatial-tracking=()";

    public static void AddTo(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = ContentPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Permissions-Policy"] = Permissions;
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers.XFrameOptions = "DENY";
        headers.CacheControl = "no-store";
        if (context.Request.IsHttps)
            headers.StrictTransportSecurity = "max-age=63072000; includeSubDomains";
    }
}
