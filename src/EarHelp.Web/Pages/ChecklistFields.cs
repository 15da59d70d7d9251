using System.Collections.Immutable;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>Several yes/no facts on one screen: a tick for yes, one for "not sure", and "none of these" set apart.</summary>
sealed class ChecklistFields(HtmlWriter html, Words words, FilledForm? filled)
{
    internal void Write(QuestionShown question)
    {
        var places = EarPlaces.All.Where(p => question.Facts.Any(f => f.Place == p)).ToImmutableArray();
        if (!places.IsEmpty)
            EarDrawing.WriteToPointAt(html, words, places);
        html.Markup("<ul class=\"choices\">"u8);
        foreach (var place in places)
            WritePlace(question, place);
        WriteEntries(question, string.Empty);
        if (question.None is not null)
        {
            html.Markup("<li class=\"apart\"><label class=\"pick\"><input type=\"checkbox\" name=\"none\" value=\"yes\""u8);
            html.Markup(filled is not null && filled.IsChosen(AnswerFields.None, "yes") ? " checked>"u8 : ">"u8)
                .Markup("<span>"u8).Text(question.None).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul>"u8);
    }

    /// <summary>What is felt or seen at one place of the drawing, under the place's number and name.</summary>
    void WritePlace(QuestionShown question, string place)
    {
        var number = EarPlaces.All.IndexOf(place) + 1;
        html.Markup("<li class=\"place\" id=\"place-"u8).Number(number).Markup("\"><p id=\"place-name-"u8).Number(number).Markup("\"><b>"u8).Number(number)
            .Markup("</b> "u8).Text(words[place]).Markup("</p><ul class=\"choices\" aria-labelledby=\"place-name-"u8).Number(number).Markup("\">"u8);
        WriteEntries(question, place);
        html.Markup("</ul></li>"u8);
    }

    void WriteEntries(QuestionShown question, string place)
    {
        for (var i = 0; i < question.Facts.Length; i++)
        {
            if (question.Facts[i].Place == place)
                WriteEntry(i, question.Facts[i]);
        }
    }

    void WriteEntry(int index, FactShown fact)
    {
        var field = AnswerFields.Chosen + fact.Asked.Fact;
        html.Markup("<li"u8);
        if (filled?.FaultOf(fact.Asked.Fact) is { } fault)
        {
            html.Markup(" class=\"wrong\"><p class=\"fault\" id=\"fault-"u8).Number(index).Markup("\">"u8).Text(fault).Markup("</p"u8);
        }

        html.Markup("><label class=\"pick\">"u8);
        WriteTick(index, fact, field, "yes");
        html.Markup("<span id=\"entry-"u8).Number(index).Markup("\">"u8);
        ProseWriter.WriteLine(html, fact.Label);
        html.Markup("</span></label>"u8);
        if (fact.NotSure is not null)
        {
            html.Markup("<label class=\"pick unsure\">"u8);
            WriteTick(index, fact, field, AnswerFields.NotSure);
            html.Markup("<span>"u8).Text(fact.NotSure).Markup("<span class=\"heard\">: "u8);
            ProseWriter.WriteLine(html, fact.Label);
            html.Markup("</span></span></label>"u8);
        }

        html.Markup("</li>"u8);
    }

    void WriteTick(int index, FactShown fact, string field, string value)
    {
        html.Markup("<input type=\"checkbox\""u8).Attribute("name"u8, field).Attribute("value"u8, value);
        if (filled is not null && filled.IsChosen(field, value))
            html.Markup(" checked"u8);
        if (filled?.FaultOf(fact.Asked.Fact) is not null)
            html.Markup(" aria-invalid=\"true\" aria-describedby=\"fault-"u8).Number(index).Markup("\""u8);
        html.Markup(">"u8);
    }
}
