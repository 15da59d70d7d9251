using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Proof.Patients;

/// <summary>One fact of an example that applies.</summary>
/// <param name="IsAsked">What the example shows hangs on it.</param>
/// <param name="IsUnsure">The patient does not know the value.</param>
readonly record struct ToldFact(Fact Fact, int Value, bool IsAsked, bool IsUnsure)
{
    public bool IsClear => !IsUnsure && Fact.Clear == Value;

    public string Written => IsUnsure ? "unsure" : Fact.Values.NameOf(Value);
}

/// <summary>Tells an example in the words of the edition's own questions, and as answers to replay.</summary>
sealed class PatientWords(Dialog dialog, FactNames names)
{
    static readonly JsonWriterOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public ExamplePatient Tell(ImmutableArray<ToldFact> facts)
    {
        var answers = dialog.Facts.Select(_ => Answer.DoesNotApply).ToArray();
        foreach (var told in facts)
            answers[told.Fact.Index] = new Answer.Asked(told.IsUnsure ? told.Fact.Values.All : ValueSet.Of(told.Value));
        return new ExamplePatient([.. answers], InWords(facts), Json(facts));
    }

    string InWords(ImmutableArray<ToldFact> facts)
    {
        var told = facts.Where(t => t.Fact.Clear is null ? t.IsAsked || t.IsUnsure : !t.IsClear).Select(InWords).ToList();
        if (facts.Any(t => t.IsClear))
            told.Add(told.Count == 0 ? "Everything no" : "everything else no");
        else if (told.Count == 0)
            told.Add("Anybody");
        return string.Join(", ", told);
    }

    string InWords(ToldFact told)
    {
        if (told.IsUnsure || told.Fact.Values is not FactValues.Numbers numbers)
            return $"{names.Of(told.Fact)}: {(told.IsUnsure ? "not sure" : told.Written)}";
        return told.Fact.Counted is null ? $"{names.Of(told.Fact)} {told.Written}" : $"{told.Fact.DecidingId}: {told.Written} {numbers.Unit}";
    }

    static string Json(ImmutableArray<ToldFact> facts)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Readable))
        {
            json.WriteStartObject();
            json.WriteStartObject("facts");
            var isBoth = facts.Any(t => t.Fact.Id == KnownFacts.EarsAffected && t.Written == "both");
            foreach (var told in facts.Where(t => !t.IsClear))
            {
                json.WritePropertyName(told.IsUnsure ? told.Fact.Id : told.Fact.DecidingId);
                if (isBoth && told.Fact.About == About.Ear)
                {
                    json.WriteStartObject();
                    json.WritePropertyName("left");
                    Write(json, told);
                    json.WritePropertyName("right");
                    Write(json, told);
                    json.WriteEndObject();
                }
                else
                {
                    Write(json, told);
                }
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    static void Write(Utf8JsonWriter json, ToldFact told)
    {
        if (!told.IsUnsure && told.Fact.Values is FactValues.Numbers numbers)
            json.WriteNumberValue(numbers.ValueOf(told.Value));
        else
            json.WriteStringValue(told.Written);
    }
}
