using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>The forms by which a member of staff changes how they sign in. Each asks again for what is known now.</summary>
public sealed class OwnAccountPages(StaffGate gate)
{
    internal const string PasswordAddress = StaffParts.Prefix + "/me/password";
    internal const string CodesAddress = StaffParts.Prefix + "/me/codes";

    internal const string NewPassword = "new-password";
    internal const string SealedKey = "sealed-key";

    public async Task PasswordAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is { } reader)
            await SendPasswordAsync(context, reader, null);
    }

    public async Task CodesAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is { } reader)
            await SendCodesAsync(context, reader, null);
    }

    internal static Task SendPasswordAsync(HttpContext context, SignedIn reader, string? fault) =>
        SendAsync(context, reader, "staff password change", fault, html =>
        {
            html.Element("p"u8, reader.Words["staff password change hint"]);
            StaffForm.Begin(html, PasswordAddress, reader.Token);
            WriteWhoItIs(html, reader);
            StaffForm.WriteLine(html, reader.Words, NewPassword, "staff password new", "password", "new-password", hint: "staff join password hint");
            StaffForm.End(html, reader.Words, "staff password change button");
        });

    internal static Task SendCodesAsync(HttpContext context, SignedIn reader, string? fault) =>
        SendAsync(context, reader, "staff codes change", fault, html =>
        {
            html.Element("p"u8, reader.Words["staff codes change hint"]);
            StaffForm.Begin(html, CodesAddress, reader.Token);
            WriteWhoItIs(html, reader);
            StaffForm.End(html, reader.Words, "staff codes change button");
        });

    /// <param name="sealedKey">The key as it travels in the form: nobody but this service reads it.</param>
    internal static Task SendKeyAsync(HttpContext context, SignedIn reader, string key, string sealedKey, string? fault) =>
        SendAsync(context, reader, "staff codes change", fault, html =>
        {
            CodeKeyParts.Write(html, reader.Words, reader.Account.ShownName, key);
            StaffForm.Begin(html, CodesAddress + "/confirm", reader.Token).Markup("<input type=\"hidden\" name=\"sealed-key\""u8).Attribute("value"u8, sealedKey).Markup(">"u8);
            StaffForm.WriteLine(html, reader.Words, StaffForm.Code, "staff code", "text", "one-time-code", hint: "staff code hint");
            StaffForm.End(html, reader.Words, "staff key button");
        });

    internal static Task SendDoneAsync(HttpContext context, SignedIn reader, string heading, string done) =>
        SendAsync(context, reader, heading, null, html => html.Markup("<p role=\"status\">"u8).Text(reader.Words[done]).Markup("</p><p><a class=\"button quiet\" href=\"/staff/me\">"u8)
            .Text(reader.Words["staff me"]).Markup("</a></p>"u8));

    static void WriteWhoItIs(HtmlWriter html, SignedIn reader)
    {
        StaffForm.WriteLine(html, reader.Words, StaffForm.Password, "staff password now", "password", "current-password");
        StaffForm.WriteLine(html, reader.Words, StaffForm.Code, "staff code", "text", "one-time-code", hint: "staff code hint");
    }

    static Task SendAsync(HttpContext context, SignedIn reader, string heading, string? fault, Action<HtmlWriter> body) =>
        PageResponse.SendAsync(context, StaffFrame.Write(reader, reader.Words[heading], html =>
        {
            html.Element("h1"u8, reader.Words[heading]);
            StaffForm.WriteFault(html, reader.Words, fault);
            body(html);
        }), fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
}
