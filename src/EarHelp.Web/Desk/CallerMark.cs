using EarHelp.Clinic.Callers;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Desk;

/// <summary>
/// Shows the desk, in the browser in which it holds a conversation for a caller, that it does, and what to say and do in an emergency. Who gets the same
/// conversation by a private link does not see it.
/// </summary>
static class CallerMark
{
    /// <summary>It opens nothing: it only says that this browser stands at the desk.</summary>
    const string Name = "earhelp-caller";

    internal static void Set(HttpContext context, string conversation) =>
        context.Response.Cookies.Append(Name, conversation, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Lax, Secure = context.Request.IsHttps, Path = "/", IsEssential = true });

    internal static void Clear(HttpContext context) => context.Response.Cookies.Delete(Name);

    /// <summary>The caller for whom this browser holds the conversation, or null.</summary>
    internal static async ValueTask<Caller?> FindAsync(HttpContext context, ICallers callers, string conversation) =>
        context.Request.Cookies[Name] == conversation ? await callers.FindAsync(conversation, context.RequestAborted) : null;

    /// <param name="isNow">True: the most urgent level was reached.</param>
    internal static void Write(HtmlWriter html, Words words, Caller? caller, bool isNow)
    {
        if (caller is null)
            return;
        html.Markup("<section class=\"alarm\" id=\"caller\"><h2>"u8).Text(words[isNow ? "caller now heading" : "caller heading"]).Markup("</h2>"u8);
        if (caller.Number.Length > 0)
            html.Markup("<p>"u8).Text(words["caller number"]).Markup(": "u8).Typed(caller.Number).Markup("</p>"u8);
        ProseWriter.Write(html, words.Letter.Page(isNow ? "caller now" : "caller"));
        html.Markup("<p><a class=\"button quiet\""u8).Attribute("href"u8, StaffParts.Prefix + "/callers").Markup(">"u8).Text(words["caller back"]).Markup("</a></p></section>"u8);
    }
}
