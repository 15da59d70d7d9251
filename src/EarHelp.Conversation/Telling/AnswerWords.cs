using System.Globalization;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;
using NodaTime.Text;

namespace EarHelp.Conversation.Telling;

/// <summary>Says facts and what was answered in words.</summary>
sealed class AnswerWords
{
    readonly Dialog _dialog;
    readonly Wording _wording;
    readonly TimeWords _times;
    readonly bool _isSelf;
    readonly QuestionWords?[] _questionOf;

    public AnswerWords(Dialog dialog, Wording wording, TimeWords times, bool isSelf)
    {
        (_dialog, _wording, _times, _isSelf) = (dialog, wording, times, isSelf);
        _questionOf = new QuestionWords?[dialog.Facts.Length];
        foreach (var screen in dialog.Screens)
        {
            if (!wording.Questions.TryGetValue(screen.Id, out var words))
                continue;
            foreach (var fact in screen.Facts)
                _questionOf[fact] = words;
        }
    }

    public QuestionWords? QuestionOf(int fact) => _questionOf[fact];

    public EntryWords? EntryOf(int fact)
    {
        if (_questionOf[fact] is not { } question)
            return null;
        foreach (var entry in question.Entries)
        {
            if (entry.Fact == fact)
                return entry;
        }

        return null;
    }

    /// <summary>The short name of an answer, with its ear.</summary>
    public string Brief(int fact, Ear? ear)
    {
        var brief = EntryOf(fact)?.InBrief ?? _questionOf[fact]?.InBrief ?? _dialog.Facts[fact].Id;
        return ear is { } of ? Fill("ear question", name => name == "question" ? brief : name == "ear" ? Word(ClinicWords.EarKey(of, _isSelf)) : null) : brief;
    }

    /// <param name="written">As in a chosen answer; null: not sure.</param>
    public string Value(int fact, string? written)
    {
        var of = _dialog.Facts[fact];
        if (written is null)
            return Word("unsure answer");
        if (written == Replies.AnswerTold.NotAnswered)
            return Word("not asked");
        if (OptionLabel(of, written) is { } label)
            return label;
        if (of.IsYesNo && written is "yes" or "no")
            return Word(written);
        var ends = written.Split("..", 2);
        if (ends.Length == 2)
        {
            return Fill("between", name =>
                name == "from" ? One(of, ends[0]) : name == "to" ? One(of, ends[1]) : null);
        }

        return of.Values is FactValues.Named && written.Contains(", ", StringComparison.Ordinal)
            ? string.Join(", ", written.Split(", ").Select(v => Value(fact, v)))
            : One(of, written);
    }

    public string Word(string key) => _wording.Interface.GetValueOrDefault(key, key);

    string Fill(string key, Func<string, string?> valueOf) => new Filling(isSelf: true, valueOf).Fill(Word(key));

    string? OptionLabel(Fact fact, string written)
    {
        if (_questionOf[fact.Index] is not { } words)
            return null;
        foreach (var option in words.Options)
        {
            if (string.Equals(WrittenValue.Of(fact, option.Values), written, StringComparison.Ordinal))
                return option.Label;
        }

        return null;
    }

    string One(Fact fact, string written)
    {
        if (fact.Counted is not null && LocalDatePattern.Iso.Parse(written) is { Success: true } date)
            return _times.Date(date.Value);
        if (fact.Counted is not null && InstantPattern.ExtendedIso.Parse(written) is { Success: true } moment)
            return _times.Moment(moment.Value);
        return fact.Values is FactValues.Numbers numbers ? WithUnit(numbers.Unit, written) : written;
    }

    string WithUnit(string unit, string written)
    {
        if (unit.Length == 0)
            return written;
        var isOne = decimal.TryParse(written, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) && number == 1;
        var words = _wording.Interface.GetValueOrDefault(unit + (isOne ? " one" : " many"), unit);
        return Fill("number with unit", name => name == "number" ? written : name == "unit" ? words : null);
    }
}
