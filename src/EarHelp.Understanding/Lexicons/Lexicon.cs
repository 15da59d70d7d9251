using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Words;

namespace EarHelp.Understanding.Lexicons;

/// <summary>How people answer the questions of one language of an edition. Built once, safe to share.</summary>
public sealed class Lexicon
{
    Lexicon(Dialog dialog, Wording wording)
    {
        Dialog = dialog;
        Wording = wording;
    }

    internal Dialog Dialog { get; }

    internal Wording Wording { get; }

    internal PhraseTree Phrases { get; } = new();

    internal Spelling Spelling { get; } = new();

    public static Lexicon Build(Dialog dialog, Wording wording)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        ArgumentNullException.ThrowIfNull(wording);
        var lexicon = new Lexicon(dialog, wording);
        foreach (var screen in dialog.Screens)
        {
            if (wording.Questions.TryGetValue(screen.Id, out var words))
                lexicon.AddQuestion(screen.Facts, words);
        }

        lexicon.AddShortWords();
        return lexicon;
    }

    void AddQuestion(ImmutableArray<int> facts, QuestionWords words)
    {
        if (words.None is not null)
            Add(words.None, new Meaning.OfNone(words.Screen));
        foreach (var entry in words.Entries)
        {
            var fact = Dialog.Facts[entry.Fact];
            if (fact.Values.IndexOf("yes") is { } yes)
                AddValue(fact, ValueSet.Of(yes), PlainProse.Of(entry.Label), entry.SaidAs.Add(fact.Id));
        }

        if (facts.Length != 1)
            return;
        var only = Dialog.Facts[facts[0]];
        foreach (var option in words.Options)
            AddValue(only, option.Values, option.Label, option.SaidAs);
        if (only.Values is FactValues.Named { IsYesNo: false } named)
        {
            for (var i = 0; i < named.Count; i++)
                Add(named.Names[i], new Meaning.OfValue(only.Index, ValueSet.Of(i), named.Names[i]));
        }
    }

    void AddValue(Fact fact, ValueSet values, string label, ImmutableArray<string> saidAs)
    {
        var meaning = new Meaning.OfValue(fact.Index, values, WrittenValue.Of(fact, values));
        Add(label, meaning);
        foreach (var said in saidAs)
            Add(said, meaning);
    }

    void AddShortWords()
    {
        AddListed("yes", new Meaning.OfYes());
        AddListed("no", new Meaning.OfNo());
        AddListed("not sure", new Meaning.OfNotSure());
        AddListed("none of these", new Meaning.OfNone(null));
        AddListOf(Courtesies.Greeting + " said as", new Meaning.OfCourtesy(Courtesies.Greeting));
        AddListOf(Courtesies.Thanks + " said as", new Meaning.OfCourtesy(Courtesies.Thanks));
        AddListed("today", new Meaning.OfDay(0));
        AddListed("yesterday", new Meaning.OfDay(1));
        for (var month = 1; month <= 12; month++)
            AddListed(string.Create(CultureInfo.InvariantCulture, $"month {month}"), new Meaning.OfMonth(month));
        if (!Wording.Interface.TryGetValue("easily confused", out var confusable))
            return;
        foreach (var word in WordList.Of(confusable))
            Spelling.NeverMendTo(word.Text);
    }

    /// <summary>An interface text, and the other ways to say it that its authors list under the same key with "said as".</summary>
    void AddListed(string key, Meaning meaning)
    {
        if (Wording.Interface.TryGetValue(key, out var label))
            Add(label, meaning);
        AddListOf(key + " said as", meaning);
    }

    void AddListOf(string key, Meaning meaning)
    {
        if (!Wording.Interface.TryGetValue(key, out var commaList))
            return;
        foreach (var form in commaList.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            Add(form, meaning);
    }

    void Add(string phrase, Meaning meaning)
    {
        var words = WordList.Of(phrase);
        foreach (var word in words)
            Spelling.Add(word.Text);
        Phrases.Add(words, meaning);
    }
}
