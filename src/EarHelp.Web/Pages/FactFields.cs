using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Facts;
using EarHelp.Web.Look;
using EarHelp.Web.Markup;

namespace EarHelp.Web.Pages;

/// <summary>The fields of one fact: its options, "not sure", and where a number or a date may be typed.</summary>
sealed class FactFields(HtmlWriter html, Words words, FilledForm? filled)
{
    static readonly (string Value, byte[] Drawing)[] Head =
    [
        ("left", LookFile.Read("head-left.svg")), ("both", LookFile.Read("head-middle.svg")), ("right", LookFile.Read("head-right.svg")),
    ];

    internal void Write(int index, FactShown fact)
    {
        var field = AnswerFields.Chosen + fact.Asked.Fact;
        var isPointedAt = fact.Asked.Fact == KnownFacts.EarsAffected && Head.All(h => fact.Options.Any(o => o.Value == h.Value));
        if (isPointedAt)
            WriteHead(fact, field);
        if (fact.Asked.Input is { } input)
            WriteInput(index, fact, input);
        if (fact.NotSure is null && (isPointedAt || fact.Options.IsEmpty))
            return;
        html.Markup("<ul class=\"choices\">"u8);
        foreach (var option in fact.Options)
        {
            if (!isPointedAt)
                WriteRadio(index, fact, field, option.Value, option.Label);
        }

        if (fact.NotSure is not null)
            WriteRadio(index, fact, field, AnswerFields.NotSure, fact.NotSure);
        html.Markup("</ul>"u8);
    }

    void WriteRadio(int index, FactShown fact, string field, string value, string label)
    {
        html.Markup("<li><label class=\"pick\">"u8);
        WriteRadioInput(index, fact, field, value);
        html.Markup("<span>"u8).Text(label).Markup("</span></label></li>"u8);
    }

    void WriteRadioInput(int index, FactShown fact, string field, string value)
    {
        html.Markup("<input type=\"radio\""u8).Attribute("name"u8, field).Attribute("value"u8, value);
        if (filled is not null && filled.IsChosen(field, value))
            html.Markup(" checked"u8);
        WriteFaultOf(index, fact);
        html.Markup(">"u8);
    }

    /// <summary>A head seen from behind, so that left is left; each piece is the label of its own radio.</summary>
    void WriteHead(FactShown fact, string field)
    {
        html.Markup("<ul class=\"point\">"u8);
        foreach (var (value, drawing) in Head)
        {
            html.Markup("<li><label>"u8).Markup(drawing).Markup("<span class=\"put\">"u8);
            WriteRadioInput(0, fact, field, value);
            html.Markup("<span>"u8).Text(fact.Options.First(o => o.Value == value).Label).Markup("</span></span></label></li>"u8);
        }

        html.Markup("</ul>"u8);
    }

    void WriteInput(int index, FactShown fact, TypedInput input)
    {
        html.Markup("<p class=\"hint\" id=\"typed-"u8).Number(index).Markup("\">"u8).Text(fact.InputHint ?? string.Empty)
            .Markup("</p><div class=\"fields\">"u8);
        if (input.Kind == TypedInput.Date)
        {
            WriteTyped(index, fact, AnswerFields.Day, words["date day"]);
            WriteTyped(index, fact, AnswerFields.Month, words["date month"]);
            WriteTyped(index, fact, AnswerFields.Year, words["date year"]);
        }
        else
        {
            var unit = input.Unit is null or "" ? fact.Brief : words.Unit(input.Unit);
            WriteTyped(index, fact, AnswerFields.Number, unit);
        }

        html.Markup("</div>"u8);
    }

    void WriteTyped(int index, FactShown fact, string prefix, string label)
    {
        var field = prefix + fact.Asked.Fact;
        html.Markup("<label>"u8).Text(label).Markup("<input type=\"text\""u8).Attribute("name"u8, field)
            .Markup(" inputmode=\"decimal\" autocomplete=\"off\" maxlength=\"12\""u8)
            .Attribute("value"u8, filled?.Written(field));
        if (!WriteFaultOf(index, fact))
            html.Markup(" aria-describedby=\"typed-"u8).Number(index).Markup("\""u8);
        html.Markup("></label>"u8);
    }

    bool WriteFaultOf(int index, FactShown fact)
    {
        if (filled?.FaultOf(fact.Asked.Fact) is null)
            return false;
        html.Markup(" aria-invalid=\"true\" aria-describedby=\"fault-"u8).Number(index).Markup("\""u8);
        return true;
    }
}
