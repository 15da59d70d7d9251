using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Clinic.Auditing;
using EarHelp.Clinic.Keeping;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Desk;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Staff;

/// <summary>The first page of staff, one's own account, and the audit trail.</summary>
public sealed class StaffPages(StaffGate gate, IStaffStore store, IAuditTrail trail, Auditor auditor)
{
    /// <summary>As many entries as a person looks over; all of them are told by <c>earhelp audit</c>.</summary>
    const int MostShown = 200;

    public async Task HomeAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } reader)
            return;
        var words = reader.Words;
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, words["staff home"], html =>
        {
            html.Element("h1"u8, words.Letter.Text("staff welcome", ("who", reader.Account.ShownName)))
                .Element("p"u8, words.Letter.Text("staff your roles", ("roles", StaffForm.WordsOf(words, reader.Account.Roles))));
            if (reader.Account.Has(StaffRole.Desk) || reader.Account.Has(StaffRole.Clinician))
                DutyPosts.WriteForm(html, reader);
        }));
    }

    public async Task MeAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } reader)
            return;
        var words = reader.Words;
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, words["staff me"], html =>
        {
            html.Element("h1"u8, words["staff me"]);
            if (reader.Account.IsFromProvider)
            {
                html.Element("p"u8, words["staff provider me"]);
                return;
            }

            html.Element("p"u8, words.Letter.Text("staff signs in as", ("name", reader.Account.SignInName)))
                .Element("h2"u8, words["staff passkeys"]).Element("p"u8, words[reader.Account.Passkeys.IsEmpty ? "staff passkeys none" : "staff passkeys hint"]);
            foreach (var passkey in reader.Account.Passkeys)
            {
                StaffForm.Begin(html, StaffParts.Prefix + "/passkey/remove", reader.Token).Markup("<input type=\"hidden\" name=\"credential\""u8)
                    .Attribute("value"u8, passkey.Id).Markup("><p>"u8).Text(words.Letter.Text("staff passkey made", ("moment", words.Letter.Moment(passkey.MadeAt))))
                    .Markup(" <button class=\"link\">"u8).Text(words["staff passkey remove"]).Markup("</button></p></form>"u8);
            }

            PasskeyForms.WriteAdd(html, words, reader.Token);
            html.Markup("<ul><li><a"u8).Attribute("href"u8, OwnAccountPages.PasswordAddress).Markup(">"u8).Text(words["staff password change"])
                .Markup("</a></li><li><a"u8).Attribute("href"u8, OwnAccountPages.CodesAddress).Markup(">"u8).Text(words["staff codes change"]).Markup("</a></li></ul>"u8);
        }));
    }

    /// <summary>Reading the trail stands in it too.</summary>
    public async Task AuditAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context, StaffRole.Administrator) is not { } reader)
            return;
        await auditor.AddAsync(reader.Account.Id, AuditDeed.ReadAudit, null, context.RequestAborted);
        var read = await trail.ReadAsync(context.RequestAborted);
        var names = (await store.AllAsync(context.RequestAborted)).ToImmutableDictionary(a => a.Id, a => a.ShownName);
        var words = reader.Words;
        await PageResponse.SendAsync(context, StaffFrame.Write(reader, words["staff audit"], html =>
        {
            html.Element("h1"u8, words["staff audit"]).Element("p"u8, words["staff audit hint"]);
            if (read.FirstDamaged is { } damaged)
                html.Markup("<p class=\"alarm\" role=\"alert\">"u8).Text(words.Letter.Text("staff audit damaged", ("number", damaged.ToString(System.Globalization.CultureInfo.InvariantCulture)))).Markup("</p>"u8);
            html.Markup("<table><thead><tr>"u8);
            foreach (var heading in (string[])["staff audit when", "staff audit who", "staff audit what", "staff audit whose"])
                html.Markup("<th scope=\"col\">"u8).Text(words[heading]).Markup("</th>"u8);
            html.Markup("</tr></thead><tbody>"u8);
            foreach (var entry in read.Entries.TakeLast(MostShown).Reverse())
                WriteEntry(html, words, entry, names);
            html.Markup("</tbody></table>"u8);
        }));
    }

    static void WriteEntry(HtmlWriter html, Words words, AuditEntry entry, ImmutableDictionary<string, string> names)
    {
        var account = entry.Account is { } id ? names.GetValueOrDefault(id, id) : null;
        html.Markup("<tr><td>"u8).Text(words.Letter.Moment(entry.At)).Markup("</td><td>"u8).Typed(names.GetValueOrDefault(entry.Who, entry.Who)).Markup("</td><td>"u8)
            .Text(words[KeyOf(entry.Deed)]).Markup("</td><td>"u8).Typed(entry.Conversation ?? account ?? string.Empty).Markup("</td></tr>"u8);
    }

    /// <summary>The key of the words of a deed.</summary>
    internal static string KeyOf(AuditDeed deed) => deed switch
    {
        AuditDeed.SignedIn => "audit signed in",
        AuditDeed.SignedOut => "audit signed out",
        AuditDeed.SignInRefused => "audit sign in refused",
        AuditDeed.Invited => "audit invited",
        AuditDeed.Joined => "audit joined",
        AuditDeed.RolesChanged => "audit roles changed",
        AuditDeed.AccountClosed => "audit account closed",
        AuditDeed.PasskeyAdded => "audit passkey added",
        AuditDeed.PasskeyRemoved => "audit passkey removed",
        AuditDeed.ReadAudit => "audit read audit",
        AuditDeed.ListedRequests => "audit listed requests",
        AuditDeed.ReadConversation => "audit read conversation",
        AuditDeed.ListedAffected => "audit listed affected",
        AuditDeed.Erased => "audit erased",
        AuditDeed.AcceptedRequest => "audit accepted request",
        AuditDeed.OfferedTime => "audit offered time",
        AuditDeed.BookedTime => "audit booked time",
        AuditDeed.Telephoned => "audit telephoned",
        AuditDeed.NotReached => "audit not reached",
        AuditDeed.SentElsewhere => "audit sent elsewhere",
        AuditDeed.RaisedLevel => "audit raised level",
        AuditDeed.LoweredLevel => "audit lowered level",
        AuditDeed.Escalated => "audit escalated",
        AuditDeed.DidNotCome => "audit did not come",
        AuditDeed.BeganDuty => "audit began duty",
        AuditDeed.EndedDuty => "audit ended duty",
        AuditDeed.ClosedClinic => "audit closed clinic",
        AuditDeed.OpenedClinic => "audit opened clinic",
        AuditDeed.CalledOffVisit => "audit called off visit",
        AuditDeed.ReportedIncident => "audit reported incident",
        AuditDeed.ListedIncidents => "audit listed incidents",
        AuditDeed.BeganForCaller => "audit began for caller",
        AuditDeed.ListedCallers => "audit listed callers",
        AuditDeed.FollowedUpCaller => "audit followed up caller",
        AuditDeed.RecordedVisit => "audit recorded visit",
        AuditDeed.CorrectedVisit => "audit corrected visit",
        AuditDeed.MadeVisitLink => "audit made visit link",
        AuditDeed.ListedVisits => "audit listed visits",
        AuditDeed.WroteRecords => "audit wrote records",
        AuditDeed.ListedUnanswered => "audit listed unanswered",
        AuditDeed.ReadFigures => "audit read figures",
        AuditDeed.LetSystemRead => "audit let system read",
        AuditDeed.PasswordChanged => "audit password changed",
        AuditDeed.CodeKeyChanged => "audit code key changed",
        AuditDeed.NotWellAfterVisit => "audit not well after visit",
        AuditDeed.BackedUp => "audit backed up",
        AuditDeed.Restored => "audit restored",
        _ => throw new UnreachableException(),
    };
}
