using System.Collections.Immutable;
using System.Diagnostics;
using EarHelp.Clinic.Requests;
using EarHelp.Clinic.Visits;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;
using EarHelp.Web.Staff;
using EarHelp.Web.Visits;
using NodaTime;
using NodaTime.Text;

namespace EarHelp.Web.AfterVisit;

/// <summary>The form on which a clinician ticks what was done and found. What was ticked stays ticked after a fault.</summary>
sealed class RecordForm(HtmlWriter html, SignedIn reader, Edition edition, ImmutableArray<SeenFinding> ticked)
{
    internal const string Before = "asked-in";

    internal const string Version = "version", Reason = "reason";

    internal const int LongestReason = 1000;

    const string When = "when";

    const string Found = "found";

    const string Email = "email", Agreed = "agreed", Plan = "plan";

    static readonly (Ear? Ear, string Value, string Words)[] Parts =
        [(Ear.Left, "left", "record left"), (Ear.Right, "right", "record right"), (null, "person", "record person")];

    static readonly LocalDateTimePattern Written = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    Words Words => reader.Words;

    /// <param name="fault">Key of the words of what is wrong; null: nothing is.</param>
    /// <param name="visit">Identifier of the visit to be: sent twice, it is one.</param>
    /// <param name="whose">Who asked for it, or null.</param>
    internal static ReadOnlyMemory<byte> Write(
        SignedIn reader, string visit, string before, ContactDetails? whose, string when, ImmutableArray<SeenFinding> ticked, AskedAfter asked, string? fault)
    {
        var title = reader.Words["record heading"];
        return StaffFrame.Write(reader, fault is null ? title : reader.Words.Letter.Text("error title", ("title", title)), html =>
        {
            html.Element("h1"u8, title).Element("p"u8, reader.Words["record hint"]);
            StaffForm.WriteFault(html, reader.Words, fault);
            if (whose is not null)
            {
                html.Markup("<section class=\"note\"><h2>"u8).Text(reader.Words["record whose"]).Markup("</h2>"u8);
                ContactList.Write(html, reader.Words, whose);
                html.Markup("</section>"u8);
            }

            StaffForm.Begin(html, AfterVisitParts.Prefix, reader.Token);
            FormFields.WriteTurn(html, visit);
            html.Markup("<input type=\"hidden\" name=\"asked-in\""u8).Attribute("value"u8, before).Markup(">"u8);
            var form = new RecordForm(html, reader, reader.Words.Edition, ticked);
            form.WriteFound(when);
            form.WriteAsked(asked);
            StaffForm.End(html, reader.Words, "record save");
        });
    }

    /// <summary>The form on which a record is corrected: what stands in it is ticked.</summary>
    /// <param name="edition">The one under which the conversation after the visit goes on.</param>
    /// <param name="version">The one that is corrected.</param>
    internal static ReadOnlyMemory<byte> WriteCorrection(
        SignedIn reader, Edition edition, Visit visit, int version, string turn, string when, ImmutableArray<SeenFinding> ticked, string reason, string? fault)
    {
        var title = reader.Words["correct heading"];
        return StaffFrame.Write(reader, fault is null ? title : reader.Words.Letter.Text("error title", ("title", title)), html =>
        {
            html.Element("h1"u8, title).Element("p"u8, reader.Words["correct hint"]);
            StaffForm.WriteFault(html, reader.Words, fault);
            StaffForm.Begin(html, CorrectionPages.AddressOf(visit.Conversation), reader.Token);
            FormFields.WriteTurn(html, turn);
            html.Markup("<input type=\"hidden\" name=\"version\" value=\""u8).Number(version).Markup("\">"u8);
            var form = new RecordForm(html, reader, edition, ticked);
            form.WriteFound(when);
            StaffForm.WriteText(html, reader.Words, Reason, "correct reason", "correct reason hint", LongestReason, reason);
            StaffForm.End(html, reader.Words, "correct save");
        });
    }

    internal static string MomentOf(Instant now, DateTimeZone zone) => Written.Format(now.InZone(zone).LocalDateTime);

    /// <summary>When the visit was, as it was written; null if it is no moment.</summary>
    internal static Instant? ReadWhen(IFormCollection fields, DateTimeZone zone) =>
        Written.Parse(fields[When].ToString()) is { Success: true, Value: var local } ? zone.AtLeniently(local).ToInstant() : null;

    internal static string WrittenWhen(IFormCollection fields) => StaffForm.ReadLine(fields[When]);

    internal static ImmutableArray<SeenFinding> ReadTicked(IFormCollection fields) =>
    [
        .. fields[Found].OfType<string>().Distinct().Select(f => f.Split(':', 2)).Where(f => f.Length == 2)
            .Select(f => new SeenFinding(f[1], Parts.FirstOrDefault(p => p.Value == f[0]).Ear)),
    ];

    internal static AskedAfter ReadAsked(IFormCollection fields) => new(StaffForm.ReadLine(fields[Email], ContactCheck.LongestEmail), fields[Agreed] == "yes", fields[Plan] == "yes");

    /// <summary>The key of the words of what keeps a visit from being recorded.</summary>
    internal static string KeyOf(VisitFault fault) => fault switch
    {
        VisitFault.NotOffered => "record not offered",
        VisitFault.NothingTicked => "record nothing ticked",
        VisitFault.UnknownFinding or VisitFault.WrongEar => "record form changed",
        VisitFault.InTheFuture => "record in the future",
        VisitFault.TooLongAgo => "record too long ago",
        VisitFault.WrongEmail => "record wrong email",
        VisitFault.RecordedOtherwise => "record otherwise",
        VisitFault.NoReason => "correct no reason",
        VisitFault.NothingChanged => "correct nothing changed",
        VisitFault.CorrectedMeanwhile => "correct meanwhile",
        VisitFault.UnknownVisit => "correct unknown visit",
        VisitFault.UnknownRequest => "record unknown request",
        VisitFault.NotSaved => "record not saved",
        _ => throw new UnreachableException(),
    };

    void WriteFound(string when)
    {
        html.Markup("<div class=\"own\"><label for=\"when\">"u8).Text(Words["record when"]).Markup("</label><p class=\"hint\" id=\"when-hint\">"u8)
            .Text(Words["record when hint"]).Markup("</p><input type=\"datetime-local\" id=\"when\" name=\"when\" aria-describedby=\"when-hint\""u8)
            .Attribute("value"u8, when).Markup("></div>"u8);
        foreach (var part in Parts)
            WritePart(part.Ear, part.Value, part.Words);
    }

    void WritePart(Ear? ear, string part, string heading)
    {
        var about = ear is null ? About.Person : About.Ear;
        html.Markup("<section><h2>"u8).Text(Words[heading]).Markup("</h2>"u8);
        foreach (var kind in edition.Dialog.Findings.Where(f => f.About == about).GroupBy(f => f.Kind))
        {
            html.Markup("<fieldset><legend><span class=\"heard\">"u8).Text(Words[heading]).Markup(": </span>"u8).Text(Words[KeyOf(kind.Key)]).Markup("</legend><ul class=\"choices\">"u8);
            foreach (var finding in kind)
                WriteChoice(finding, ear, part);
            html.Markup("</ul></fieldset>"u8);
        }

        html.Markup("</section>"u8);
    }

    /// <summary>Where the patient is asked how it is; left empty, it waits on the patient's page.</summary>
    void WriteAsked(AskedAfter asked)
    {
        if (Words.Edition.Clinic.CheckInDays.IsEmpty)
            return;
        html.Markup("<section><h2>"u8).Text(Words["record asked"]).Markup("</h2><div class=\"own\"><label for=\"email\">"u8).Text(Words["record email"]).Markup("</label><p class=\"hint\" id=\"email-hint\">"u8)
            .Text(Words["record email hint"]).Markup("</p><input type=\"text\" inputmode=\"email\" id=\"email\" name=\"email\" autocomplete=\"off\" autocapitalize=\"none\" spellcheck=\"false\" aria-describedby=\"email-hint\""u8)
            .Attribute("value"u8, asked.Email).Markup(" maxlength=\""u8).Number(ContactCheck.LongestEmail).Markup("\"></div><ul class=\"choices\"><li><label class=\"pick\"><input type=\"checkbox\" name=\"agreed\" value=\"yes\""u8)
            .Markup(asked.IsAgreed ? " checked><span>"u8 : "><span>"u8).Text(Words["record agreed"]).Markup("</span></label></li><li><label class=\"pick\"><input type=\"checkbox\" name=\"plan\" value=\"yes\""u8)
            .Markup(asked.WantsPlan ? " checked><span>"u8 : "><span>"u8).Text(Words["record plan"]).Markup("</span></label></li></ul></section>"u8);
    }

    void WriteChoice(VisitFinding finding, Ear? ear, string part) =>
        html.Markup("<li><label class=\"pick\"><input type=\"checkbox\" name=\"found\""u8).Attribute("value"u8, $"{part}:{finding.Id}")
            .Markup(ticked.Contains(new SeenFinding(finding.Id, ear)) ? " checked><span>"u8 : "><span>"u8).Text(edition.Wordings[Words.Language].Findings[finding.Id].Form)
            .Markup("</span></label></li>"u8);

    static string KeyOf(FindingKind kind) => kind switch
    {
        FindingKind.Done => "record done",
        FindingKind.Found => "record found",
        FindingKind.Learnt => "record learnt",
        FindingKind.Advised => "record advised",
        _ => throw new UnreachableException(),
    };
}

/// <summary>By which address the patient may be asked after the visit; empty: by none.</summary>
/// <param name="IsAgreed">The patient said that messages may go there.</param>
/// <param name="WantsPlan">A link to the plan goes there now.</param>
sealed record AskedAfter(string Email, bool IsAgreed, bool WantsPlan)
{
    internal static AskedAfter Nowhere { get; } = new("", false, false);
}
