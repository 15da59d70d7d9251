using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Asking;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The question of now, as a form that works by itself.</summary>
/// <param name="token">The form token.</param>
/// <param name="turn">Identifier of the turn that this form will be.</param>
/// <param name="filled">Set if the form was sent and has to be mended.</param>
sealed class QuestionForm(HtmlWriter html, Words words, string token, string turn, FilledForm? filled)
{
    internal const string Anchor = "now";

    internal void Write(QuestionShown question)
    {
        html.Markup("<section class=\"ask\" id=\"now\" aria-labelledby=\"question\">"u8);
        WriteFaults(question);
        html.Markup("<form method=\"post\" action=\"/answer\" data-part novalidate>"u8);
        FormFields.WriteToken(html, token);
        FormFields.WriteTurn(html, turn);
        FormFields.WriteQuestion(html, question.Question.Name);
        if (question.Lead is not null)
            html.Markup("<p class=\"note\">"u8).Text(question.Lead).Markup("</p>"u8);
        if (question.Question.Kind == QuestionKind.Form)
            WriteForm(question);
        else
            WriteOne(question);
        WriteOwnWords(question.Question.Kind == QuestionKind.Form);
        html.Markup("<button>"u8).Text(words["continue"]).Markup("</button></form></section>"u8);
    }

    void WriteFaults(QuestionShown question)
    {
        if (filled is null || filled.Faults.IsEmpty)
            return;
        html.Markup("<div class=\"faults\" id=\"faults\" role=\"alert\" tabindex=\"-1\" data-focus><h2>"u8).Text(words["error heading"])
            .Markup("</h2><ul>"u8);
        foreach (var fault in filled.Faults)
        {
            var fact = 0;
            while (fact < question.Facts.Length && question.Facts[fact].Asked.Fact != fault.Fact)
                fact++;
            html.Markup("<li><a href=\"#fact-"u8).Number(fact == question.Facts.Length ? 0 : fact).Markup("\">"u8)
                .Text(fact == question.Facts.Length || question.Facts.Length == 1 ? fault.Message : $"{question.Facts[fact].Brief}: {fault.Message}")
                .Markup("</a></li>"u8);
        }

        html.Markup("</ul></div>"u8);
    }

    /// <summary>Several facts, each with the words of its own question.</summary>
    void WriteForm(QuestionShown question)
    {
        html.Markup("<h2 id=\"question\" tabindex=\"-1\" data-focus>"u8);
        ProseWriter.WriteLine(html, question.Ask);
        html.Markup("</h2>"u8);
        WriteWhy(question);
        html.Markup("<div class=\"form\">"u8);
        for (var i = 0; i < question.Facts.Length; i++)
        {
            var fact = question.Facts[i];
            OpenGroup(i, fact.Asked.Fact);
            html.Markup("<legend>"u8);
            ProseWriter.WriteLine(html, fact.Label);
            html.Markup("</legend>"u8);
            WriteNote(i, fact);
            new FactFields(html, words, filled).Write(i, fact);
            html.Markup("</fieldset>"u8);
        }

        html.Markup("</div>"u8);
    }

    /// <summary>One fact, or a checklist: the question is the name of the group.</summary>
    void WriteOne(QuestionShown question)
    {
        var isChecklist = question.Question.Kind == QuestionKind.Checklist;
        OpenGroup(isChecklist ? null : 0, isChecklist ? null : question.Facts[0].Asked.Fact);
        html.Markup("<legend><h2 id=\"question\" tabindex=\"-1\" data-focus>"u8);
        ProseWriter.WriteLine(html, question.Ask);
        html.Markup("</h2></legend><div class=\"hint\">"u8);
        ProseWriter.Write(html, question.Note);
        html.Markup("<p>"u8).Text(question.Hint).Markup("</p></div>"u8);
        WriteFault(isChecklist ? null : 0, isChecklist ? null : question.Facts[0].Asked.Fact);
        if (isChecklist)
            new ChecklistFields(html, words, filled).Write(question);
        else
            new FactFields(html, words, filled).Write(0, question.Facts[0]);
        html.Markup("</fieldset>"u8);
        WriteWhy(question);
    }

    void OpenGroup(int? index, string? fact)
    {
        html.Markup("<fieldset id=\"fact-"u8).Number(index ?? 0).Markup("\""u8);
        if (filled?.FaultOf(fact) is not null)
            html.Markup(" aria-describedby=\"fault-"u8).Number(index ?? 0).Markup("\""u8);
        html.Markup(">"u8);
    }

    void WriteNote(int index, FactShown fact)
    {
        if (!fact.Note.IsEmpty)
        {
            html.Markup("<div class=\"hint\">"u8);
            ProseWriter.Write(html, fact.Note);
            html.Markup("</div>"u8);
        }

        WriteFault(index, fact.Asked.Fact);
    }

    void WriteFault(int? index, string? fact)
    {
        if (filled?.FaultOf(fact) is { } fault)
            html.Markup("<p class=\"fault\" id=\"fault-"u8).Number(index ?? 0).Markup("\">"u8).Text(fault).Markup("</p>"u8);
    }

    void WriteWhy(QuestionShown question)
    {
        if (question.Why.IsEmpty)
            return;
        html.Markup("<details><summary>"u8).Text(words["why we ask"]).Markup("</summary><div>"u8);
        ProseWriter.Write(html, question.Why);
        html.Markup("</div></details>"u8);
    }

    void WriteOwnWords(bool isFirst)
    {
        html.Markup("<div class=\"own\"><label for=\"own\">"u8).Text(words[isFirst ? "first message" : "or write"]).Markup("</label>"u8);
        if (isFirst)
            html.Markup("<p class=\"hint\" id=\"own-hint\">"u8).Text(words["first message hint"]).Markup("</p>"u8);
        html.Markup("<textarea id=\"own\" name=\"text\" rows=\"2\" autocomplete=\"off\""u8);
        html.Markup(isFirst ? " aria-describedby=\"own-hint\">"u8 : ">"u8).Text(filled?.Written(AnswerFields.OwnWords) ?? string.Empty)
            .Markup("</textarea></div>"u8);
    }
}
