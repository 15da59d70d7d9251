using System.Collections.Immutable;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Systems;

namespace EarHelp.Web.Staff;

/// <summary>The accounts of staff, for an administrator.</summary>
public sealed class AccountPages(StaffGate gate, IStaffStore store, FaultPages faults)
{
    public async Task ListAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Administrator) is { } reader)
            await SendListAsync(context, reader, null);
    }

    public async Task OneAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Administrator) is { } reader)
            await SendOneAsync(context, reader, null);
    }

    internal async Task SendListAsync(HttpContext context, SignedIn reader, string? fault)
    {
        var accounts = await store.AllAsync(context.RequestAborted);
        await PageResponse.SendAsync(context, WriteList(reader, accounts, fault), fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }

    internal async Task SendOneAsync(HttpContext context, SignedIn reader, string? fault)
    {
        if (await store.FindAsync((string)context.Request.RouteValues["id"]!, context.RequestAborted) is { } account)
            await PageResponse.SendAsync(context, WriteOne(reader, account, fault), fault is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
        else
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
    }

    /// <summary>Shows a one-time code, once.</summary>
    internal static ReadOnlyMemory<byte> WriteCode(SignedIn reader, string who, string code, string until) =>
        StaffFrame.Write(reader, reader.Words["staff invited heading"], html =>
        {
            html.Element("h1"u8, reader.Words["staff invited heading"]).Element("p"u8, reader.Words.Letter.Text("staff invited", ("who", who), ("moment", until)))
                .Markup("<p class=\"pen\" id=\"code\">"u8).Text(code).Markup("</p><p><a class=\"button quiet\" href=\"/staff/accounts\">"u8)
                .Text(reader.Words["staff accounts"]).Markup("</a></p>"u8);
        });

    static ReadOnlyMemory<byte> WriteList(SignedIn reader, ImmutableArray<StaffAccount> accounts, string? fault)
    {
        var words = reader.Words;
        return StaffFrame.Write(reader, words["staff accounts"], html =>
        {
            html.Element("h1"u8, words["staff accounts"]).Markup("<table><thead><tr><th scope=\"col\">"u8).Text(words["staff who"]).Markup("</th><th scope=\"col\">"u8)
                .Text(words["staff roles"]).Markup("</th><th scope=\"col\">"u8).Text(words["staff state"]).Markup("</th></tr></thead><tbody>"u8);
            foreach (var account in accounts.OrderBy(a => a.ShownName, StringComparer.OrdinalIgnoreCase))
            {
                html.Markup("<tr><td><a"u8).Attribute("href"u8, $"{StaffParts.Prefix}/accounts/{account.Id}").Markup(">"u8).Typed(NameOf(words, account))
                    .Markup("</a></td><td>"u8).Text(StaffForm.WordsOf(words, account.Roles)).Markup("</td><td>"u8).Text(StateOf(words, account)).Markup("</td></tr>"u8);
            }

            html.Markup("</tbody></table><h2>"u8).Text(words["staff invite heading"]).Markup("</h2>"u8);
            StaffForm.WriteFault(html, words, fault);
            StaffForm.Begin(html, StaffParts.Prefix + "/accounts", reader.Token);
            StaffForm.WriteLine(html, words, StaffForm.Name, "staff invite name", "text", "off");
            StaffForm.WriteRoles(html, words, []);
            StaffForm.End(html, words, "staff invite button");
            SystemForm.WriteNew(html, reader);
        });
    }

    static ReadOnlyMemory<byte> WriteOne(SignedIn reader, StaffAccount account, string? fault)
    {
        var words = reader.Words;
        var name = NameOf(words, account);
        return StaffFrame.Write(reader, name, html =>
        {
            html.Element("h1"u8, name).Element("p"u8, StateOf(words, account));
            StaffForm.WriteFault(html, words, fault);
            if (account.State == StaffState.Closed)
                return;
            if (account.Has(StaffRole.System))
            {
                SystemForm.WriteEnd(html, reader, account);
                return;
            }

            var address = $"{StaffParts.Prefix}/accounts/{account.Id}";
            if (account.IsFromProvider)
                html.Element("p"u8, words["staff provider roles"]);
            else
                WriteRolesAndCode(html, reader, account, address);
            html.Markup("<section><h2>"u8).Text(words["staff close heading"]).Markup("</h2><p>"u8).Text(words["staff close"]).Markup("</p>"u8);
            StaffForm.Begin(html, address + "/close", reader.Token);
            StaffForm.End(html, words, "staff close button").Markup("</section>"u8);
        });
    }

    static void WriteRolesAndCode(HtmlWriter html, SignedIn reader, StaffAccount account, string address)
    {
        var words = reader.Words;
        StaffForm.Begin(html, address + "/roles", reader.Token);
        StaffForm.WriteRoles(html, words, account.Roles);
        StaffForm.End(html, words, "staff roles button");
        html.Markup("<section><h2>"u8).Text(words["staff code again heading"]).Markup("</h2><p>"u8).Text(words["staff code again"]).Markup("</p>"u8);
        StaffForm.Begin(html, address + "/code", reader.Token);
        StaffForm.End(html, words, "staff code again button").Markup("</section>"u8);
    }

    static string NameOf(Words words, StaffAccount account) => account.ShownName.Length > 0 ? account.ShownName : words["staff nameless"];

    static string StateOf(Words words, StaffAccount account) => words[account.State switch
    {
        StaffState.Invited => "staff state invited",
        StaffState.Open => "staff state open",
        StaffState.Closed => "staff state closed",
        _ => throw new System.Diagnostics.UnreachableException(),
    }];
}
