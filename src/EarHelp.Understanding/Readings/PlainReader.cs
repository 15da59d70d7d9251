using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Readings;

/// <summary>Reads a whole message as the answer to the question that is open, and to nothing else.</summary>
sealed class PlainReader(Lexicon lexicon, AskedNow asked, LocalDate today)
{
    public PlainAnswer? Read(ImmutableArray<Word> words, string[] mended)
    {
        var whole = lexicon.Phrases.Whole(mended);
        if (asked.IsChecklist && IsNone(whole, mended))
            return new PlainAnswer([], NoneOfThese: true);
        if (Has<Meaning.OfNotSure>(whole))
            return new PlainAnswer([.. asked.Facts.Select(f => new PlainChoice(f, null, NotSure: true))], NoneOfThese: false);
        if (asked.Facts.Length == 1)
            return ReadOne(asked.Facts[0], mended, whole) is { } choice ? new PlainAnswer([choice], NoneOfThese: false) : null;
        return asked.IsChecklist ? ReadNumbersTicked(mended) : ReadClauses(words, mended);
    }

    bool IsNone(IReadOnlyList<Meaning> whole, string[] mended) =>
        mended is ["0"] || whole.Any(m => m is Meaning.OfNone none && (none.Screen is null || none.Screen == asked.Screen));

    PlainChoice? ReadOne(int factIndex, ReadOnlySpan<string> mended, IReadOnlyList<Meaning> whole)
    {
        var fact = lexicon.Dialog.Facts[factIndex];
        if (fact.IsYesNo && Has<Meaning.OfYes>(whole))
            return new PlainChoice(factIndex, "yes", NotSure: false);
        if (fact.IsYesNo && Has<Meaning.OfNo>(whole))
            return new PlainChoice(factIndex, "no", NotSure: false);
        foreach (var meaning in whole)
        {
            if (meaning is Meaning.OfValue value && value.Fact == factIndex)
                return new PlainChoice(factIndex, value.Written, NotSure: false);
        }

        if (ReadOptionMark(fact, mended) is { } option)
            return option;
        if (fact.Counted is not null)
        {
            return DateReader.Read(lexicon, mended, today) is { } date
                ? new PlainChoice(factIndex, date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), NotSure: false)
                : null;
        }

        return fact.Values is FactValues.Numbers numbers && ReadNumber(numbers, mended) is { } number
            ? new PlainChoice(factIndex, number, NotSure: false)
            : null;
    }

    /// <summary>Options are marked 1, 2, 3 where an answer is a word, and a, b, c where it could be a figure; "not sure" comes last.</summary>
    PlainChoice? ReadOptionMark(Fact fact, ReadOnlySpan<string> mended)
    {
        if (mended.Length != 1)
            return null;
        var isWord = fact.Values is FactValues.Named;
        var mark = mended[0];
        var place = isWord
            ? int.TryParse(mark, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n - 1 : -1
            : mark.Length == 1 ? mark[0] - 'a' : -1;
        var written = OptionsOf(fact);
        if (place < 0 || place > written.Length)
            return null;
        return place == written.Length
            ? new PlainChoice(fact.Index, null, NotSure: true)
            : new PlainChoice(fact.Index, written[place], NotSure: false);
    }

    ImmutableArray<string> OptionsOf(Fact fact)
    {
        foreach (var screen in lexicon.Dialog.Screens)
        {
            if (screen.Facts.Length == 1 && screen.Facts[0] == fact.Index
                && lexicon.Wording.Questions.TryGetValue(screen.Id, out var words) && !words.Options.IsEmpty)
                return [.. words.Options.Select(o => WrittenValue.Of(fact, o.Values))];
        }

        return fact.IsYesNo ? ["yes", "no"] : [];
    }

    string? ReadNumber(FactValues.Numbers numbers, ReadOnlySpan<string> mended)
    {
        if (mended.IsEmpty || mended.Length > 2
            || !decimal.TryParse(mended[0], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value))
            return null;
        if (mended.Length == 2 && !IsUnit(numbers.Unit, mended[1]))
            return null;
        return value.ToString(CultureInfo.InvariantCulture);
    }

    bool IsUnit(string unit, string word)
    {
        var texts = lexicon.Wording.Interface;
        return Says(unit) || (texts.TryGetValue(unit + " one", out var one) && Says(one))
            || (texts.TryGetValue(unit + " many", out var many) && Says(many));
        bool Says(string text) => WordList.Of(text) is [var only] && string.Equals(only.Text, word, StringComparison.Ordinal);
    }

    PlainAnswer? ReadNumbersTicked(string[] mended)
    {
        var choices = ImmutableArray.CreateBuilder<PlainChoice>();
        foreach (var word in mended)
        {
            if (!int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number < 1 || number > asked.Facts.Length)
                return null;
            choices.Add(new PlainChoice(asked.Facts[number - 1], "yes", NotSure: false));
        }

        return new PlainAnswer(choices.ToImmutable(), NoneOfThese: false);
    }

    /// <summary>"Me, 45, near the clinic": each clause answers one of the facts that are asked together, and none is left over.</summary>
    PlainAnswer? ReadClauses(ImmutableArray<Word> words, string[] mended)
    {
        var choices = ImmutableArray.CreateBuilder<PlainChoice>();
        for (var from = 0; from < words.Length;)
        {
            var to = from + 1;
            while (to < words.Length && !words[to].BeginsClause)
                to++;
            if (ReadClause(mended.AsSpan(from..to)) is not { } choice || choices.Any(c => c.Fact == choice.Fact))
                return null;
            choices.Add(choice);
            from = to;
        }

        return new PlainAnswer(choices.ToImmutable(), NoneOfThese: false);
    }

    PlainChoice? ReadClause(ReadOnlySpan<string> clause)
    {
        PlainChoice? only = null;
        var whole = lexicon.Phrases.Whole(clause);
        foreach (var index in asked.Facts)
        {
            var fact = lexicon.Dialog.Facts[index];
            var value = whole.OfType<Meaning.OfValue>().FirstOrDefault(v => v.Fact == index)?.Written
                ?? (fact is { Counted: null, Values: FactValues.Numbers numbers } ? ReadNumber(numbers, clause) : null);
            if (value is null)
                continue;
            if (only is not null)
                return null;
            only = new PlainChoice(index, value, NotSure: false);
        }

        return only;
    }

    static bool Has<T>(IReadOnlyList<Meaning> meanings) => meanings.Any(m => m is T);
}
