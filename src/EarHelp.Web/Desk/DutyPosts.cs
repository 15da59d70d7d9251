using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;

namespace EarHelp.Web.Desk;

/// <summary>Going on duty and off it.</summary>
public sealed class DutyPosts(StaffGate gate, IStaffStore store, Auditor auditor)
{
    const string Duty = "duty";

    public async Task ChangeAsync(HttpContext context)
    {
        if (await gate.TakeAsync(context, DeskPages.Roles) is not var (by, fields))
            return;
        var isOn = fields[Duty] == "on";
        if (isOn != by.Account.IsOnDuty)
        {
            await auditor.AddAsync(by.Account.Id, isOn ? AuditDeed.BeganDuty : AuditDeed.EndedDuty, null, context.RequestAborted);
            await store.PutAsync(by.Account with { Version = by.Account.Version + 1, IsOnDuty = isOn }, context.RequestAborted);
        }

        await PageResponse.GoToAsync(context, StaffParts.Prefix);
    }

    internal static void WriteForm(HtmlWriter html, SignedIn reader)
    {
        var isOn = reader.Account.IsOnDuty;
        html.Element("h2"u8, reader.Words["duty heading"]).Element("p"u8, reader.Words[isOn ? "duty on" : "duty off"]);
        StaffForm.Begin(html, StaffParts.Prefix + "/duty", reader.Token).Markup("<p><button name=\"duty\" value=\""u8).Markup(isOn ? "off\">"u8 : "on\">"u8)
            .Text(reader.Words[isOn ? "duty end" : "duty begin"]).Markup("</button></p></form>"u8);
    }
}
