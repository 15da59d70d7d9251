using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Cli.Describing;

/// <summary>The facts for a program, in asking order.</summary>
public static class FactsJson
{
    static readonly JsonWriterOptions Indented = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(Dialog dialog, Wording wording)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(wording);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Indented))
        {
            json.WriteStartArray();
            foreach (var fact in dialog.Facts)
                Write(json, dialog, fact, wording);
            json.WriteEndArray();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void Write(Utf8JsonWriter json, Dialog dialog, Fact fact, Wording wording)
    {
        json.WriteStartObject();
        json.WriteString("id", fact.Id);
        json.WriteString("about", fact.About == About.Ear ? "ear" : "person");
        json.WriteString("kind", FactWords.Kind(fact));
        WriteValues(json, fact);
        if (fact.Counted is { } counted)
        {
            json.WriteStartObject("counted_as");
            json.WriteString("id", counted.NumberId);
            json.WriteString("counts", counted.Unit == CountUnit.Days ? "days" : "hours");
            json.WriteEndObject();
        }

        json.WriteString("ask_in", FactWords.AskIn(fact.AskIn));
        json.WriteBoolean("red_flag", fact.RedFlag is RedFlag.Marked);
        json.WriteString("clear", fact.Clear is { } clear ? fact.Values.NameOf(clear) : null);
        json.WriteStartArray("applies_when");
        foreach (var condition in fact.AppliesWhen)
            json.WriteStringValue($"{NameOf(dialog, condition)}: {condition.Written}");
        json.WriteEndArray();
        if (dialog.Screens.FirstOrDefault(s => s.Facts.Contains(fact.Index)) is { } screen && wording.Questions.TryGetValue(screen.Id, out var words))
            WriteQuestion(json, fact, screen, words);
        json.WriteEndObject();
    }

    /// <summary>Names in order, or the ends and the step of a number; of a date, those of the number that is counted from it.</summary>
    static void WriteValues(Utf8JsonWriter json, Fact fact)
    {
        if (fact.Values is FactValues.Numbers numbers)
        {
            json.WriteStartObject("values");
            json.WriteNumber("from", numbers.From);
            json.WriteNumber("to", numbers.To);
            json.WriteNumber("step", numbers.Step);
            json.WriteEndObject();
            json.WriteString("unit", numbers.Unit);
            return;
        }

        json.WriteStartArray("values");
        foreach (var name in ((FactValues.Named)fact.Values).Names)
            json.WriteStringValue(name);
        json.WriteEndArray();
        json.WriteNull("unit");
    }

    static void WriteQuestion(Utf8JsonWriter json, Fact fact, Screen screen, QuestionWords words)
    {
        json.WriteStartObject("question");
        json.WriteString("screen", screen.Id);
        json.WriteString("ask", PlainText.OfLine(words.Ask));
        json.WriteString("why", PlainText.OfLine(words.Why));
        var entry = words.Entries.FirstOrDefault(e => e.Fact == fact.Index);
        json.WriteString("entry", entry is null ? null : PlainText.OfLine(entry.Label));
        json.WriteStartArray("options");
        foreach (var option in words.Options)
        {
            json.WriteStartObject();
            json.WriteString("value", Written(fact.Values, option.Values));
            json.WriteString("label", option.Label);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    static string Written(FactValues values, ValueSet set) => set.Only is { } only
        ? values.NameOf(only)
        : $"{values.NameOf(set.Least)}..{values.NameOf(set.Greatest)}";

    static string NameOf(Dialog dialog, Condition condition) =>
        condition.Of.IsNamedFact ? dialog.NamedFacts[condition.Of.Index].Id : dialog.Facts[condition.Of.Index].DecidingId;
}
