using EarHelp.Triage.Editions;

namespace EarHelp.Exchange.Fhir;

/// <summary>Names the clinic's resources: everything stands under the clinic's own address.</summary>
/// <param name="Root">An https address without a slash at its end, as <c>record address</c> in <c>content/clinic.md</c>.</param>
public sealed record RecordAddress(string Root)
{
    /// <summary>The codes of our own answers: a value's name, or <see cref="NotSure"/>.</summary>
    public string Answers => $"{Root}/CodeSystem/answers";

    public string Conversations => $"{Root}/conversation";

    public string Editions => $"{Root}/edition";

    /// <summary>The code for "not sure".</summary>
    public const string NotSure = "not-sure";

    /// <summary>The canonical address of the questions of an edition, without its version.</summary>
    public string Questionnaire(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        return $"{Root}/Questionnaire/{dialog.Id}";
    }

    /// <summary>An identifier of ours as the id of a resource: HL7 FHIR R4 ("Datatypes", id) allows letters, figures, hyphens and dots, and ours has underscores but no dots.</summary>
    public static string ResourceId(string identifier)
    {
        ArgumentNullException.ThrowIfNull(identifier);
        return identifier.Replace('_', '.');
    }

    public string Of(string type, string id) => $"{Root}/{type}/{id}";

    /// <summary>What an edition lacks for being written as FHIR, with the mend; null: nothing.</summary>
    static string? FaultOf(Edition edition)
    {
        ArgumentNullException.ThrowIfNull(edition);
        if (edition.Clinic.RecordAddress.Length == 0)
            return "content/clinic.md has no \"record address\". Add the https address under which the clinic names its records.";
        return edition.Dialog.Levels.FirstOrDefault(l => l.Priority is null) is { } level
            ? $"The level \"{level.Id}\" has no priority. Add the column \"priority\" to the table of levels in dialogs/levels.md."
            : null;
    }

    /// <exception cref="RecordsUnwritableException">The edition lacks something.</exception>
    public static RecordAddress Of(Edition edition) =>
        FaultOf(edition) is { } fault ? throw new RecordsUnwritableException(fault) : new RecordAddress(edition.Clinic.RecordAddress);
}
