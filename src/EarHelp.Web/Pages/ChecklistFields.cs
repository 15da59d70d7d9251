using EarHelp.Conversation.Telling;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>Several yes/no facts on one screen: a tick for yes, one for "not sure", and "none of these" set apart.</summary>
sealed class ChecklistFields(HtmlWriter html, FilledForm? filled)
{
    internal void Write(QuestionShown question)
    {
        html.Markup("<ul class=\"choices\">"u8);
        for (var i = 0; i < question.Facts.Length; i++)
            WriteEntry(i, question.Facts[i]);
        if (question.None is not null)
        {
            html.Markup("<li class=\"apart\"><label class=\"pick\"><input type=\"checkbox\" name=\"none\" value=\"yes\""u8);
            html.Markup(filled is not null && filled.IsChosen(AnswerFields.None, "yes") ? " checked>"u8 : ">"u8)
                .Markup("<span>"u8).Text(question.None).Markup("</span></label></li>"u8);
        }

        html.Markup("</ul>"u8);
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
