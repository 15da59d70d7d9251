using EarHelp.Clinic.Requests;
using EarHelp.Web.Markup;
using EarHelp.Web.Pages;

namespace EarHelp.Web.Visits;

/// <summary>What was told about reaching the person, to be read: each part with its name.</summary>
static class ContactList
{
    internal static void Write(HtmlWriter html, Words words, ContactDetails contact)
    {
        html.Markup("<dl class=\"details\">"u8);
        var way = RequestFields.Ways.FirstOrDefault(w => w.Way == contact.ReachBy).Words;
        Line(words["visit reached by"], words[way ?? "visit any way"]);
        Typed(words["visit number"], contact.Number);
        Typed(words["visit email"], contact.Email);
        Typed(words["visit for whom"], contact.Name.Length > 0 ? contact.Name : words["visit not said"]);
        if (!words.Letter.IsSelf)
            Typed(words["visit from whom"], contact.AskedBy.Length > 0 ? contact.AskedBy : words["visit not said"]);
        var needs = RequestFields.Needs.Where(n => n.IsNeeded(contact.Needs)).Select(n => words[n.Words]).ToList();
        Line(words["visit helps"], needs.Count > 0 ? string.Join(", ", needs) : words["visit nothing"]);
        Typed(words["visit language"], contact.Needs.Language);
        Typed(words["visit note"], contact.Needs.Note);
        html.Markup("</dl>"u8);

        void Line(string name, string value) => html.Element("dt"u8, name).Element("dd"u8, value);

        void Typed(string name, string value)
        {
            if (value.Length > 0)
                html.Element("dt"u8, name).Markup("<dd>"u8).Typed(value).Markup("</dd>"u8);
        }
    }
}
