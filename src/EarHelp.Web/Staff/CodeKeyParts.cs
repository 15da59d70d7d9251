using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>Shows the key of the one-time codes, once.</summary>
static class CodeKeyParts
{
    /// <summary>Where the key of one-time codes is put into an app (the key URI that authenticator apps read; common practice).</summary>
    const string KeyAddress = "otpauth://totp/";

    internal static void Write(HtmlWriter html, Words words, string who, string key)
    {
        var issuer = Uri.EscapeDataString(words["service name"]);
        var address = $"{KeyAddress}{issuer}:{Uri.EscapeDataString(who)}?secret={key}&issuer={issuer}";
        html.Element("p"u8, words["staff key hint"]).Markup("<p class=\"pen\" id=\"key\">"u8).Text(string.Join(' ', key.Chunk(4).Select(g => new string(g))))
            .Markup("</p><p><a"u8).Attribute("href"u8, address).Markup(">"u8).Text(words["staff key link"]).Markup("</a></p>"u8);
    }
}
