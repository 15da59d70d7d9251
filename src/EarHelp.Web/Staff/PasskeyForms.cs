using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>The buttons that ask the browser for a passkey; a script shows them where the browser can.</summary>
static class PasskeyForms
{
    internal static void WriteSignIn(HtmlWriter html, Words words, string token) =>
        Write(html, words, token, "get", "/passkey/sign-in", "/passkey/request", "staff passkey sign in");

    internal static void WriteAdd(HtmlWriter html, Words words, string token) =>
        Write(html, words, token, "make", "/passkey/add", "/passkey/creation", "staff passkey add");

    static void Write(HtmlWriter html, Words words, string token, string what, string address, string options, string button) =>
        html.Markup("<form method=\"post\" hidden"u8).Attribute("action"u8, StaffParts.Prefix + address).Attribute("data-passkey"u8, what)
            .Attribute("data-options"u8, StaffParts.Prefix + options).Markup("><input type=\"hidden\" name=\"token\""u8).Attribute("value"u8, token)
            .Markup("><input type=\"hidden\" name=\"credential\"><p><button>"u8).Text(words[button]).Markup("</button></p><p class=\"status\" role=\"status\""u8)
            .Attribute("data-failed"u8, words["staff passkey failed"]).Markup("></p></form>"u8);
}
