using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using PhraseBook = EarHelp.Understanding.Messages.PhraseBook;

namespace EarHelp.Conversation.Stepping;

/// <summary>An edition with everything that is built from it once. Safe to share.</summary>
public sealed class ServedEdition
{
    /// <summary>A fact of at most so many values has one object a value, so that conversations hold references only.</summary>
    const int SharedValues = 128;

    readonly FrozenDictionary<string, InOneLanguage> _languages;
    readonly FrozenDictionary<string, int> _facts;
    readonly FrozenDictionary<string, Screen> _screens;
    readonly ImmutableArray<ImmutableArray<Said>> _said;
    readonly ImmutableArray<ImmutableArray<Answer>> _known;
    readonly Decisions _decisions;
    readonly ConcurrentDictionary<(string Language, bool IsSelf, EmergencyPlace Place), LetterWriter> _abroad = new();

    readonly Func<string, bool> _isSigned;
    readonly Func<bool> _isInvented;

    /// <param name="isSigned">Whether the edition with this identifier is signed at this moment; null: it is not.</param>
    /// <param name="closings">What the clinic ever closed at once; null: nothing.</param>
    /// <param name="isInvented">Whether everything that is kept is made up; null: it is not.</param>
    public ServedEdition(
        Edition edition, Assessor assessor, Func<string, bool>? isSigned = null, Func<ImmutableArray<SuddenClosing>>? closings = null, Func<bool>? isInvented = null)
    {
        ArgumentNullException.ThrowIfNull(edition);
        _isSigned = isSigned ?? (_ => false);
        _isInvented = isInvented ?? (() => false);
        Edition = edition;
        Assessor = assessor;
        Calendar = new ClinicCalendar(edition.Clinic, closings);
        DefaultLanguage = edition.Wordings.ContainsKey("en") ? "en" : edition.Wordings.Keys.Order(StringComparer.Ordinal).First();
        var facts = Dialog.Facts;
        AboutWhom = Dialog.FindFact(KnownFacts.AboutWhom)?.Index;
        EarsAffected = Dialog.FindFact(KnownFacts.EarsAffected)?.Index;
        _facts = facts.ToFrozenDictionary(f => f.Id, f => f.Index, StringComparer.Ordinal);
        _screens = Dialog.Screens.ToFrozenDictionary(s => s.Id, StringComparer.Ordinal);
        ScreenOf = [.. facts.Select(f => Dialog.Screens.First(s => s.Facts.Contains(f.Index)))];
        Unsure = [.. facts.Select(f => (Answer)new Answer.Asked(f.Values.All))];
        _said = [.. facts.Select(f => Each(f, i => (Said)new Said.Values(ValueSet.Of(i))))];
        _known = [.. facts.Select(f => Each(f, i => (Answer)new Answer.Asked(ValueSet.Of(i))))];
        _decisions = new Decisions(assessor, _known);
        MustBeAsked = FactsToAsk.Of(Dialog);
        OtherwiseRank = Dialog.Rules.Where(r => r.Conditions.IsEmpty).Min(r => r.Level) ?? Dialog.Levels.Length;
        _languages = edition.Wordings.Keys.ToFrozenDictionary(l => l, l => new InOneLanguage(this, l), StringComparer.OrdinalIgnoreCase);
    }

    public Edition Edition { get; }

    /// <summary>While it is false, every page says that it is a demonstration.</summary>
    public bool IsSigned => _isSigned(Edition.Id);

    /// <summary>While it is true, every page says that everything on it is made up.</summary>
    public bool IsInvented => _isInvented();

    public Assessor Assessor { get; }

    public Dialog Dialog => Edition.Dialog;

    public ClinicCalendar Calendar { get; }

    public string DefaultLanguage { get; }

    internal int? AboutWhom { get; }

    internal int? EarsAffected { get; }

    /// <summary>By fact: the screen that asks it.</summary>
    internal ImmutableArray<Screen> ScreenOf { get; }

    /// <summary>By fact: the answer "not sure".</summary>
    internal ImmutableArray<Answer> Unsure { get; }

    /// <summary>By fact: true for danger signs and for what forbids an advice item; nothing that is typed freely settles these.</summary>
    public ImmutableArray<bool> MustBeAsked { get; }

    /// <summary>The level of what nobody foresaw: a sign that leads to a more urgent one has its text shown at once.</summary>
    internal int OtherwiseRank { get; }

    /// <summary>The language if the edition has it, else its main language, else the default.</summary>
    public string LanguageOr(string wanted)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        if (_languages.TryGetValue(wanted, out var found) || _languages.TryGetValue(wanted.Split('-')[0], out found))
            return found.Language;
        return DefaultLanguage;
    }

    public Lexicon LexiconOf(string language) => _languages[language].Lexicon;

    public PhraseBook PhrasesOf(string language) => _languages[language].Phrases;

    public LetterWriter WriterOf(string language, bool isSelf) => isSelf ? _languages[language].Self : _languages[language].Other;

    /// <summary>The words for a conversation as it stands, in its language and grammar, with what to call where the person is.</summary>
    public LetterWriter WriterOf(ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var isSelf = IsAboutSelf(state);
        return EmergencyPlace.Of(Edition, state) is { } place
            ? _abroad.GetOrAdd((state.Language, isSelf, place), key => new LetterWriter(Edition, key.Language, key.IsSelf, key.Place))
            : WriterOf(state.Language, isSelf);
    }

    /// <summary>True if the person writes about themselves, or has not said yet.</summary>
    public bool IsAboutSelf(ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return AboutWhom is not { } fact
            || state.Answers.Find(new FactOfEar(fact, null)) is not Said.Values { Set.Only: { } only }
            || string.Equals(Dialog.Facts[fact].Values.NameOf(only), "me", StringComparison.Ordinal);
    }

    /// <summary>What the assessor decides for these answers.</summary>
    internal Decided Decide(ImmutableArray<EarAnswers> views) => _decisions.Of(views);

    internal AskedFact AskedIn(string language, int fact) => _languages[language].Asked[fact];

    internal int? FactIndex(string id) => _facts.TryGetValue(id, out var index) ? index : null;

    internal Screen? Screen(string id) => _screens.GetValueOrDefault(id);

    internal bool IsRedFlag(int fact) => Dialog.Facts[fact].RedFlag is RedFlag.Marked;

    internal bool IsOfEar(int fact) => Dialog.Facts[fact].About == About.Ear;

    internal Said SaidOf(int fact, ValueSet values) =>
        values.Only is { } only && only < _said[fact].Length ? _said[fact][only] : new Said.Values(values);

    internal Answer AnswerOf(int fact, ValueSet values) =>
        values.Only is { } only && only < _known[fact].Length ? _known[fact][only] : new Answer.Asked(values);

    static ImmutableArray<T> Each<T>(Fact fact, Func<int, T> make) =>
        fact.Values.Count <= SharedValues ? [.. Enumerable.Range(0, fact.Values.Count).Select(make)] : [];

    sealed class InOneLanguage(ServedEdition edition, string language)
    {
        public string Language { get; } = language;

        public Lexicon Lexicon { get; } = Lexicon.Build(edition.Dialog, edition.Edition.Wordings[language]);

        public PhraseBook Phrases { get; } = PhraseBook.Build(edition.Dialog, edition.Edition.Wordings[language]);

        public LetterWriter Self { get; } = new(edition.Edition, language, isSelf: true);

        public LetterWriter Other { get; } = new(edition.Edition, language, isSelf: false);

        public ImmutableArray<AskedFact> Asked { get; } =
            [.. edition.Dialog.Facts.Select(f => QuestionMaker.AskedFact(edition, language, f))];
    }
}
