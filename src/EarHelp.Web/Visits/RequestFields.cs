using System.Collections.Immutable;
using EarHelp.Clinic.Requests;

namespace EarHelp.Web.Visits;

/// <summary>The fields of a request's form: their names, how they are read, and how they are sent on unseen.</summary>
static class RequestFields
{
    internal const string Name = "name";
    internal const string AskedBy = "by";
    internal const string Reach = "reach";
    internal const string Number = "number";
    internal const string Email = "email";
    internal const string Interpreter = "interpreter";
    internal const string Language = "language";
    internal const string SignLanguage = "sign";
    internal const string StepFree = "step-free";
    internal const string Carer = "carer";
    internal const string Chaperone = "chaperone";
    internal const string BeenBefore = "before";
    internal const string Note = "note";

    internal const string Yes = "yes";

    internal const int LongestLine = 100;
    internal const int LongestAddress = 254;
    internal const int LongestNote = 600;

    /// <summary>The ways in the order of the form, with the key of their words.</summary>
    internal static ImmutableArray<(ReachBy Way, string Value, string Words)> Ways { get; } =
    [
        (ReachBy.TextMessage, "text", "visit by text"),
        (ReachBy.Email, "email", "visit by email"),
        (ReachBy.RelayCall, "relay", "visit by relay"),
        (ReachBy.Call, "call", "visit by call"),
    ];

    /// <summary>What may be ticked, with the key of its words.</summary>
    internal static ImmutableArray<(string Field, string Words, Func<VisitNeeds, bool> IsNeeded)> Needs { get; } =
    [
        (Interpreter, "visit interpreter", n => n.Interpreter),
        (SignLanguage, "visit sign language", n => n.SignLanguage),
        (StepFree, "visit step free", n => n.StepFree),
        (Carer, "visit carer", n => n.Carer),
        (Chaperone, "visit chaperone", n => n.Chaperone),
        (BeenBefore, "visit been before", n => n.BeenBefore),
    ];

    internal static ContactDetails Read(IFormCollection fields)
    {
        bool Has(string field) => fields[field] == Yes;
        var way = Ways.FirstOrDefault(w => w.Value == fields[Reach]).Way;
        var language = Line(fields[Language], LongestLine);
        return new ContactDetails(
            Line(fields[Name], LongestLine),
            Line(fields[AskedBy], LongestLine),
            way,
            Line(fields[Number], LongestLine),
            Line(fields[Email], LongestAddress),
            new VisitNeeds(
                Has(Interpreter) || language.Length > 0, language, Has(SignLanguage), Has(StepFree), Has(Carer), Has(Chaperone), Has(BeenBefore), Line(fields[Note], LongestNote)));
    }

    /// <summary>Every field that says something, as it is sent.</summary>
    internal static IEnumerable<(string Field, string Value)> Of(ContactDetails contact)
    {
        (string Field, string Value)[] all =
        [
            (Name, contact.Name),
            (AskedBy, contact.AskedBy),
            (Reach, Ways.FirstOrDefault(w => w.Way == contact.ReachBy).Value ?? string.Empty),
            (Number, contact.Number),
            (Email, contact.Email),
            (Language, contact.Needs.Language),
            (Note, contact.Needs.Note),
            .. Needs.Select(n => (n.Field, n.IsNeeded(contact.Needs) ? Yes : string.Empty)),
        ];
        return all.Where(f => f.Value.Length > 0);
    }

    /// <summary>One line without what cannot be seen, cut to its length.</summary>
    static string Line(string? written, int longest)
    {
        var line = new string([.. (written ?? string.Empty).Select(c => char.IsControl(c) ? ' ' : c)]).Trim();
        return line.Length <= longest ? line : line[..longest];
    }
}
