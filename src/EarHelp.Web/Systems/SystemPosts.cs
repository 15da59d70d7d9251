using EarHelp.Clinic.Staff;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Systems;

/// <summary>An administrator lets one of the clinic's own systems read, or ends that.</summary>
public sealed class SystemPosts(StaffGate gate, SystemAccess access, AccountPages pages, FaultPages faults)
{
    public async Task LetReadAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Administrator) is not var (by, fields))
            return;
        var name = StaffForm.ReadLine(fields[SystemForm.Name]);
        if (name.Length == 0)
        {
            await pages.SendListAsync(context, by, "system no name");
            return;
        }

        var (account, token) = await access.LetReadAsync(by.Account.Id, name, context.RequestAborted);
        await PageResponse.SendAsync(context, StaffFrame.Write(by, by.Words["system heading"], html =>
            html.Element("h1"u8, by.Words["system heading"]).Element("p"u8, by.Words.Letter.Text("system key shown", ("who", account.ShownName)))
                .Markup("<p class=\"pen\" id=\"token\">"u8).Text(token).Markup("</p><p><a class=\"button quiet\" href=\"/staff/accounts\">"u8)
                .Text(by.Words["staff accounts"]).Markup("</a></p>"u8)));
    }

    public async Task EndAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, StaffRole.Administrator) is not var (by, _))
            return;
        if (await access.EndAsync(by.Account.Id, (string)context.Request.RouteValues["id"]!, context.RequestAborted))
            await PageResponse.GoToAsync(context, StaffParts.Prefix + "/accounts");
        else
            await faults.SendAsync(context, StatusCodes.Status404NotFound);
    }
}
