using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Clinic.Requests;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Visits;

/// <summary>The form of a request, filled in with what is known, and with what is wrong with it.</summary>
sealed class RequestForm(HtmlWriter html, Words words, ContactDetails contact, ImmutableArray<ContactFault> faults)
{
    internal static ReadOnlyMemory<byte> WritePage(
        Words words, string heading, ContactDetails contact, ImmutableArray<ContactFault> faults, string token, string turn)
    {
        var title = faults.IsEmpty ? words[heading] : words.Letter.Text("error title", ("title", words[heading]));
        return PageFrame.Write(words, new PageState(title, token, HasQuestion: false), html =>
        {
            html.Element("h1"u8, words[heading]);
            new RequestForm(html, words, contact, faults).Write(token, turn);
        });
    }

    void Write(string token, string turn)
    {
        WriteFaults();
        html.Element("p"u8, words.Letter.Text("visit purpose", ("days", Days(words))));
        html.Markup("<p><a href=\"/privacy\">"u8).Text(words["privacy"]).Markup("</a> <a href=\"/complaints\">"u8).Text(words["complaints"])
            .Markup("</a></p>"u8).Element("p"u8, words["visit one way"]);
        html.Markup("<form method=\"post\" action=\"/visit/check\" novalidate>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        WriteReach();
        WriteWho();
        WriteNeeds();
        html.Markup("<div class=\"own\"><label for=\"note\">"u8).Text(words["visit note"])
            .Markup("</label><textarea id=\"note\" name=\"note\" rows=\"3\" autocomplete=\"off\" maxlength=\""u8).Number(RequestFields.LongestNote)
            .Markup("\">"u8).Text(contact.Needs.Note).Markup("</textarea></div><p><button>"u8).Text(words["visit check"]).Markup("</button></p></form>"u8);
    }

    internal static string Days(Words words) =>
        words.Edition.Clinic.RequestKeptDays.ToString(CultureInfo.InvariantCulture);

    void WriteFaults()
    {
        if (faults.IsEmpty)
            return;
        html.Markup("<div class=\"faults\" id=\"faults\" role=\"alert\" tabindex=\"-1\" data-focus><h2>"u8).Text(words["error heading"]).Markup("</h2><ul>"u8);
        foreach (var fault in faults)
            html.Markup("<li><a"u8).Attribute("href"u8, "#" + FieldOf(fault)).Markup(">"u8).Text(words[WordsOf(fault)]).Markup("</a></li>"u8);
        html.Markup("</ul></div>"u8);
    }

    void WriteReach()
    {
        html.Markup("<fieldset><legend><h2>"u8).Text(words["visit reach"]).Markup("</h2></legend><p class=\"hint\">"u8).Text(words["visit reach hint"])
            .Markup("</p><ul class=\"choices\">"u8);
        foreach (var (way, value, label) in RequestFields.Ways)
        {
            html.Markup("<li><label class=\"pick\"><input type=\"radio\" name=\"reach\""u8).Attribute("value"u8, value)
                .Markup(contact.ReachBy == way ? " checked><span>"u8 : "><span>"u8).Text(words[label]).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul>"u8);
        WriteLine(RequestFields.Number, words["visit number"], contact.Number, "tel", "tel", RequestFields.LongestLine);
        WriteLine(RequestFields.Email, words["visit email"], contact.Email, "email", "email", RequestFields.LongestAddress);
        html.Markup("</fieldset>"u8);
    }

    void WriteWho()
    {
        html.Markup("<fieldset><legend><h2>"u8).Text(words["visit who"]).Markup("</h2></legend>"u8);
        var isSelf = words.Letter.IsSelf;
        WriteLine(RequestFields.Name, words[isSelf ? "visit name" : "visit name other"], contact.Name, "text", isSelf ? "name" : "off", RequestFields.LongestLine);
        if (!isSelf)
            WriteLine(RequestFields.AskedBy, words["visit asked by"], contact.AskedBy, "text", "name", RequestFields.LongestLine);
        html.Markup("</fieldset>"u8);
    }

    void WriteNeeds()
    {
        html.Markup("<fieldset><legend><h2>"u8).Text(words["visit needs"]).Markup("</h2></legend><p class=\"hint\">"u8).Text(words["visit needs hint"])
            .Markup("</p><ul class=\"choices\">"u8);
        foreach (var (field, label, isNeeded) in RequestFields.Needs)
        {
            html.Markup("<li><label class=\"pick\"><input type=\"checkbox\" value=\"yes\""u8).Attribute("name"u8, field)
                .Markup(isNeeded(contact.Needs) ? " checked><span>"u8 : "><span>"u8).Text(words[label]).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul>"u8);
        WriteLine(RequestFields.Language, words["visit language"], contact.Needs.Language, "text", "off", RequestFields.LongestLine);
        html.Markup("</fieldset>"u8);
    }

    void WriteLine(string field, string label, string value, string keyboard, string autocomplete, int longest)
    {
        var fault = faults.Where(f => FieldOf(f) == field).Select(f => (ContactFault?)f).FirstOrDefault();
        html.Markup("<div class=\"own\"><label"u8).Attribute("for"u8, field).Markup(">"u8).Text(label).Markup("</label>"u8);
        if (fault is { } wrong)
            html.Markup("<p class=\"fault\""u8).Attribute("id"u8, "fault-" + field).Markup(">"u8).Text(words[WordsOf(wrong)]).Markup("</p>"u8);
        html.Markup("<input type=\"text\""u8).Attribute("id"u8, field).Attribute("name"u8, field).Attribute("inputmode"u8, keyboard)
            .Attribute("autocomplete"u8, autocomplete).Attribute("value"u8, value);
        if (fault is not null)
            html.Markup(" aria-invalid=\"true\""u8).Attribute("aria-describedby"u8, "fault-" + field);
        html.Markup(" maxlength=\""u8).Number(longest).Markup("\"></div>"u8);
    }

    static string FieldOf(ContactFault fault) => fault is ContactFault.NoEmail or ContactFault.WrongEmail ? RequestFields.Email : RequestFields.Number;

    static string WordsOf(ContactFault fault) => fault switch
    {
        ContactFault.NoWay => "visit no way",
        ContactFault.NoNumber => "visit no number",
        ContactFault.NoEmail => "visit no email",
        ContactFault.WrongNumber => "visit wrong number",
        ContactFault.WrongEmail => "visit wrong email",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
