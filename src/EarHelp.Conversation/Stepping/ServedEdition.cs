using System.Collections.Concurrent;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Lexicons;

namespace EarHelp.Conversation.Stepping;

/// <summary>An edition with everything that is built from it once. Safe to share.</summary>
public sealed class ServedEdition
{
    readonly ConcurrentDictionary<string, Lexicon> _lexicons = new(StringComparer.Ordinal);
    readonly ConcurrentDictionary<(string Language, bool IsSelf), LetterWriter> _writers = [];

    public ServedEdition(Edition edition, Assessor assessor)
    {
        ArgumentNullException.ThrowIfNull(edition);
        Edition = edition;
        Assessor = assessor;
        Calendar = new ClinicCalendar(edition.Clinic);
        DefaultLanguage = edition.Wordings.ContainsKey("en") ? "en" : edition.Wordings.Keys.Order(StringComparer.Ordinal).First();
    }

    public Edition Edition { get; }

    public Assessor Assessor { get; }

    public Dialog Dialog => Edition.Dialog;

    public ClinicCalendar Calendar { get; }

    public string DefaultLanguage { get; }

    /// <summary>The language if the edition has it, else the default.</summary>
    public string LanguageOr(string wanted) => Edition.Wordings.ContainsKey(wanted) ? wanted : DefaultLanguage;

    public Lexicon LexiconOf(string language) => _lexicons.GetOrAdd(language, l => Lexicon.Build(Dialog, Edition.Wordings[l]));

    public LetterWriter WriterOf(string language, bool isSelf) =>
        _writers.GetOrAdd((language, isSelf), key => new LetterWriter(Edition, key.Language, key.IsSelf));
}
