using System.Collections.Frozen;
using System.Collections.Immutable;
using EarHelp.Conversation.States;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Assessments;
using EarHelp.Triage.Deadlines;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Conversation.Serving;

/// <summary>An edition with all that a conversation needs at hand. Built once for each edition, safe to share.</summary>
public sealed class ServedEdition
{
    readonly FrozenDictionary<string, ServedLanguage> _languages;
    readonly FrozenDictionary<string, int> _facts;
    readonly FrozenDictionary<string, Screen> _screens;
    readonly ImmutableArray<ImmutableArray<Said>> _said;
    readonly ImmutableArray<ImmutableArray<Answer>> _known;
    readonly ServedLanguage _first;

    public ServedEdition(Edition edition)
        : this(edition, Assessor.Build((edition ?? throw new ArgumentNullException(nameof(edition))).Dialog))
    {
    }

    public ServedEdition(Edition edition, Assessor assessor)
    {
        ArgumentNullException.ThrowIfNull(edition);
        (Edition, Assessor) = (edition, assessor);
        var dialog = edition.Dialog;
        Calendar = new ClinicCalendar(edition.Clinic);
        AboutWhom = dialog.FindFact("about whom")?.Index;
        EarsAffected = dialog.FindFact("ears affected")?.Index;
        _languages = edition.Wordings.Keys.ToFrozenDictionary(
            t => t, t => new ServedLanguage(edition, t, AboutWhom), StringComparer.OrdinalIgnoreCase);
        _first = _languages[edition.Wordings.Keys.Order(StringComparer.Ordinal).First()];
        _facts = dialog.Facts.ToFrozenDictionary(f => f.Id, f => f.Index, StringComparer.Ordinal);
        _screens = dialog.Screens.ToFrozenDictionary(s => s.Id, StringComparer.Ordinal);
        ScreenOf = [.. dialog.Facts.Select(f => dialog.Screens.First(s => s.Facts.Contains(f.Index)))];
        Unsure = [.. dialog.Facts.Select(f => (Answer)new Answer.Asked(f.Values.All))];
        _said = [.. dialog.Facts.Select(f => Each(f, i => (Said)new Said.Values(ValueSet.Of(i))))];
        _known = [.. dialog.Facts.Select(f => Each(f, i => (Answer)new Answer.Asked(ValueSet.Of(i))))];
        MustBeAsked = GatesAndFlags(dialog);
        OtherwiseRank = dialog.Rules.Where(r => r.Conditions.IsEmpty && r.Level is not null).Min(r => r.Level) ?? dialog.Levels.Length;
    }

    public Edition Edition { get; }

    public Dialog Dialog => Edition.Dialog;

    public string Id => Edition.Id;

    public Assessor Assessor { get; }

    public ClinicCalendar Calendar { get; }

    internal int? AboutWhom { get; }

    internal int? EarsAffected { get; }

    /// <summary>By fact: the screen that asks it.</summary>
    internal ImmutableArray<Screen> ScreenOf { get; }

    /// <summary>By fact: the answer "not sure".</summary>
    internal ImmutableArray<Answer> Unsure { get; }

    /// <summary>By fact: true for danger signs and for what forbids an advice item; nothing that is typed settles these.</summary>
    internal ImmutableArray<bool> MustBeAsked { get; }

    /// <summary>The level of what nobody foresaw: only what is more urgent than this is a danger sign's level.</summary>
    internal int OtherwiseRank { get; }

    /// <summary>The language asked for, else its main language, else the edition's first.</summary>
    public ServedLanguage Language(string tag)
    {
        ArgumentNullException.ThrowIfNull(tag);
        if (_languages.TryGetValue(tag, out var language))
            return language;
        var hyphen = tag.IndexOf('-', StringComparison.Ordinal);
        return hyphen > 0 && _languages.TryGetValue(tag[..hyphen], out language) ? language : _first;
    }

    /// <summary>True if the person writes about themselves, or has not said yet.</summary>
    public bool IsAboutSelf(ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return AboutWhom is not { } fact
            || state.Answers.Find(new FactOfEar(fact, null)) is not Said.Values { Set.Only: { } only }
            || Dialog.Facts[fact].Values.NameOf(only) == "me";
    }

    internal int? FactIndex(string id) => _facts.TryGetValue(id, out var index) ? index : null;

    internal Screen? Screen(string id) => _screens.GetValueOrDefault(id);

    internal bool IsRedFlag(int fact) => Dialog.Facts[fact].RedFlag is RedFlag.Marked;

    internal Said SaidOf(int fact, ValueSet values) =>
        values.Only is { } only && only < _said[fact].Length ? _said[fact][only] : new Said.Values(values);

    internal Answer AnswerOf(int fact, ValueSet values) =>
        values.Only is { } only && only < _known[fact].Length ? _known[fact][only] : new Answer.Asked(values);

    /// <summary>One object for each value where there are few, so that a conversation holds references only.</summary>
    static ImmutableArray<T> Each<T>(Fact fact, Func<int, T> make) =>
        fact.Values.Count <= 128 ? [.. Enumerable.Range(0, fact.Values.Count).Select(make)] : [];

    static ImmutableArray<bool> GatesAndFlags(Dialog dialog)
    {
        var must = new bool[dialog.Facts.Length];
        foreach (var condition in dialog.Advice.SelectMany(a => a.NeverIf))
            Mark(condition.Of);
        foreach (var fact in dialog.Facts)
            must[fact.Index] |= fact.RedFlag is RedFlag.Marked;
        return [.. must];

        void Mark(FactReference of)
        {
            if (!of.IsNamedFact)
            {
                must[of.Index] = true;
                return;
            }

            foreach (var condition in dialog.NamedFacts[of.Index].Rows.SelectMany(r => r.Conditions))
                Mark(condition.Of);
        }
    }
}
