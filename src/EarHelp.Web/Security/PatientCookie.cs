namespace EarHelp.Web.Security;

/// <summary>The one cookie: the secret of a person's conversation, for this browser only.</summary>
public static class PatientCookie
{
    const string PlainName = "earhelp";

    /// <summary>A browser takes this name only over https, without a domain and for the whole site.</summary>
    const string BoundName = "__Host-earhelp";

    /// <summary>The secret, or null if there is none or it is not of our making.</summary>
    public static string? Read(HttpContext context)
    {
        var secret = context.Request.Cookies[NameFor(context)];
        return Secret.IsWellFormed(secret) ? secret : null;
    }

    /// <summary>The secret in the cookie; a new one is given to who has none.</summary>
    public static string ReadOrNew(HttpContext context, TimeSpan keptFor)
    {
        if (Read(context) is { } secret)
            return secret;
        secret = Secret.New();
        Write(context, secret, keptFor);
        return secret;
    }

    /// <param name="keptFor">How long the browser keeps it.</param>
    public static void Write(HttpContext context, string secret, TimeSpan keptFor) =>
        context.Response.Cookies.Append(NameFor(context), secret, OptionsFor(context, keptFor));

    public static void Clear(HttpContext context) =>
        context.Response.Cookies.Delete(NameFor(context), OptionsFor(context, null));

    static string NameFor(HttpContext context) => context.Request.IsHttps ? BoundName : PlainName;

    static CookieOptions OptionsFor(HttpContext context, TimeSpan? keptFor) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        Path = "/",
        MaxAge = keptFor,
        IsEssential = true,
    };
}
