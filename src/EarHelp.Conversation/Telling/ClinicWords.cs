using System.Globalization;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Conversation.Telling;

/// <summary>The blanks that every text may have: the clinic, the emergency numbers, the ear.</summary>
sealed class ClinicWords(Clinic clinic, (string Call, string WithoutHearing) emergency, Wording wording, bool isSelf, TimeWords times)
{
    public TimeWords Times => times;

    /// <param name="ear">Which ear <c>{the ear}</c> is; null: the one that is spoken about.</param>
    /// <param name="valueOf">Blanks of this text alone; they come first.</param>
    public string Fill(string template, Ear? ear, Func<string, string?> valueOf) =>
        new Filling(isSelf, name => valueOf(name) ?? Of(name, ear)).Fill(template);

    public Prose Fill(Prose prose, Ear? ear, Func<string, string?> valueOf) =>
        new Filling(isSelf, name => valueOf(name) ?? Of(name, ear)).Fill(prose);

    /// <summary>Key of the words that name an ear in a list.</summary>
    public static string EarKey(Ear ear, bool isSelf) => ear switch
    {
        Ear.Left => "left ear",
        Ear.Right => "right ear",
        _ => isSelf ? "either ear self" : "either ear other",
    };

    string? Of(string name, Ear? ear) => name switch
    {
        "clinic" => clinic.Name,
        "clinic phone" => clinic.Phone,
        "clinic text" => clinic.Text,
        "clinic email" => clinic.Email,
        "clinic relay" => clinic.Relay,
        "clinic address" => clinic.Address,
        "visit minutes" => clinic.VisitMinutes.ToString(CultureInfo.InvariantCulture),
        "visit cost" => clinic.VisitCost,
        "emergency number" => emergency.Call,
        "emergency without hearing" => emergency.WithoutHearing,
        "crisis line" => clinic.CrisisLine,
        "crisis without hearing" => clinic.CrisisWithoutHearing,
        "country" => clinic.Country,
        "town" or "place" => clinic.Town,
        "the ear" => TheEar(ear),
        _ => null,
    };

    string TheEar(Ear? ear)
    {
        var which = ear switch
        {
            Ear.Left => "the ear left",
            Ear.Right => "the ear right",
            Ear.Either => "either ear",
            _ => "the ear one",
        };
        var key = which + (isSelf ? " self" : " other");
        return wording.Interface.GetValueOrDefault(key, key);
    }
}
