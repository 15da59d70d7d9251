using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Stepping;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;
using NodaTime;

namespace EarHelp.Conversation.Telling;

/// <summary>Puts typed replies into the words of one language. Safe to share; one for each edition, language and grammar.</summary>
public sealed class LetterWriter
{
    readonly Edition _edition;
    readonly Wording _wording;
    readonly AnswerWords _answers;
    readonly ClinicWords _clinic;
    readonly QuestionLetter _questions;
    readonly OutcomeLetter _outcomes;
    readonly AnswerLetter _answerPages;

    /// <param name="isSelf">True if the person writes about themselves; it chooses between <c>{you|they}</c>.</param>
    public LetterWriter(Edition edition, string language, bool isSelf)
        : this(edition, language, isSelf, null)
    {
    }

    /// <param name="place">For which country the emergency blanks are filled; null: the clinic's.</param>
    internal LetterWriter(Edition edition, string language, bool isSelf, EmergencyPlace? place)
    {
        ArgumentNullException.ThrowIfNull(edition);
        _edition = edition;
        _wording = edition.Wordings[language];
        IsSelf = isSelf;
        var times = new TimeWords(edition.Clinic, _wording);
        _answers = new AnswerWords(edition.Dialog, _wording, times, isSelf);
        var emergency = place?.Words(edition, _wording) ?? (edition.Clinic.EmergencyNumber, edition.Clinic.EmergencyWithoutHearing);
        _clinic = new ClinicWords(edition.Clinic, emergency, _wording, isSelf, times);
        _questions = new QuestionLetter(edition.Dialog, _wording, _answers, _clinic);
        _outcomes = new OutcomeLetter(edition, _wording, _answers, _clinic);
        _answerPages = new AnswerLetter(_wording, _answers, _clinic);
    }

    public bool IsSelf { get; }

    public string Language => _wording.Language;

    /// <summary>The parts of one reply.</summary>
    /// <param name="now">An outcome whose limit has passed by now is told as overdue, whenever it was decided.</param>
    public ImmutableArray<LetterPart> Write(Reply reply, Instant now) => reply switch
    {
        Reply.Say { Text: Sayings.ShareWords } => [new LetterPart.SharingOffered(Line(Sayings.ShareWords), Text("share words yes"), Allows: true)],
        Reply.Say { Text: Sayings.WordsShared } => [new LetterPart.SharingOffered(Line(Sayings.WordsShared), Text("share words no"), Allows: false)],
        Reply.Say say => [new LetterPart.Passage(say.Text, Said(say))],
        Reply.Alarm alarm => [new LetterPart.Emergency(Alarmed(alarm))],
        Reply.Ask ask => [new LetterPart.Asked(_questions.Write(ask.Question))],
        Reply.Confirm confirm => [ReadBack(confirm)],
        Reply.Outcome outcome => [new LetterPart.OutcomeShown(outcome.Told, _outcomes.Write(outcome.Told, now))],
        Reply.Answered answered => [new LetterPart.Passage(LetterPart.AnswerKey, _answerPages.Write(answered.Told))],
        Reply.NotKnown unknown => [new LetterPart.TopicsOffered(Line("question not known"), Topics(unknown))],
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    /// <summary>A short text of the edition, filled; for labels of a face.</summary>
    public string Text(string key) => _clinic.Fill(_wording.Interface.GetValueOrDefault(key, key), null, _ => null);

    /// <summary>The same, with blanks of the face's own.</summary>
    public string Text(string key, params ReadOnlySpan<(string Name, string Value)> blanks)
    {
        var values = blanks.ToArray();
        return _clinic.Fill(_wording.Interface.GetValueOrDefault(key, key), null, name => Array.Find(values, v => v.Name == name).Value);
    }

    /// <summary>A short text of the edition, filled, its numbers and addresses as links.</summary>
    public Prose Line(string key) => _clinic.Fill(ProseOf.LineWithBlanks(_wording.Interface.GetValueOrDefault(key, key)), null, _ => null);

    /// <summary>A page of the edition, filled.</summary>
    public Prose Page(string key) => _clinic.Fill(_wording.Pages.GetValueOrDefault(key, Prose.Empty), null, _ => null);

    /// <summary>The short name of a fact's answer, with its ear.</summary>
    public string Brief(string fact, Ear? ear) =>
        _edition.Dialog.FindFact(fact) is { } found ? _answers.Brief(found.Index, ear) : fact;

    /// <summary>The question of a fact in one line, as it is asked first: a checklist's entry, else the question itself.</summary>
    /// <param name="ear">Which ear <c>{the ear}</c> is; null for the person.</param>
    public string QuestionOf(string fact, Ear? ear)
    {
        if (_edition.Dialog.FindFact(fact) is not { } found)
            return fact;
        var words = _answers.EntryOf(found.Index)?.Label ?? _answers.QuestionOf(found.Index)?.Ask;
        return words is { IsEmpty: false } ? PlainText.OfLine(_clinic.Fill(words, ear, _ => null)) : _answers.Brief(found.Index, ear);
    }

    /// <summary>The name of an ear in a list.</summary>
    public string EarName(Ear ear) => Text(ClinicWords.EarKey(ear, IsSelf));

    /// <summary>The headline of an advice item, in one line.</summary>
    public string Headline(AdviceTold item)
    {
        ArgumentNullException.ThrowIfNull(item);
        return Headline(item.Id, item.Ear);
    }

    /// <param name="item">Name of an advice item.</param>
    /// <param name="ear">Null: about the person.</param>
    public string Headline(string item, Ear? ear) => _wording.Advice.TryGetValue(item, out var words) && words is { IsEmpty: false }
        ? PlainText.OfLine(_clinic.Fill(new Prose([words.Blocks[0]], default), ear, _ => null))
        : item;

    /// <summary>What an advice item says below its headline.</summary>
    public Prose Below(string item, Ear? ear) => _wording.Advice.TryGetValue(item, out var words) && words is { IsEmpty: false }
        ? _clinic.Fill(words with { Blocks = words.Blocks.RemoveAt(0) }, ear, _ => null)
        : Prose.Empty;

    /// <summary>What the patient reads of a finding; its name if this edition has no such finding any more.</summary>
    public string Finding(string name, Ear? ear) =>
        _wording.Findings.TryGetValue(name, out var words) ? PlainText.OfLine(_clinic.Fill(words.Told, ear, _ => null)) : name;

    /// <summary>The short name of a question, with its ear.</summary>
    public string BriefOfScreen(string screen, Ear? ear)
    {
        var brief = _wording.Questions.TryGetValue(screen, out var words) ? words.InBrief : Text("start heading");
        return ear is null ? brief : Text("ear question", ("question", brief), ("ear", Text(ClinicWords.EarKey(ear.Value, IsSelf))));
    }

    /// <param name="written">As in a chosen answer; null: not sure.</param>
    public string Value(string fact, string? written) =>
        _edition.Dialog.FindFact(fact) is { } found ? _answers.Value(found.Index, written) : written ?? Text("unsure answer");

    /// <summary>A moment in words, its zone named.</summary>
    public string Moment(Instant at) => _clinic.Times.Moment(at);

    /// <summary>A day in words.</summary>
    public string Date(LocalDate date) => _clinic.Times.Date(date);

    /// <summary>A time of day in words, at the clinic.</summary>
    public string Time(LocalTime time) => _clinic.Times.Time(time);

    Prose Said(Reply.Say say)
    {
        string? ValueOf(string name) => BlankWords.Of(this, _clinic.Times, say.Blanks, name);
        return _wording.Pages.TryGetValue(say.Text, out var page)
            ? _clinic.Fill(page, null, ValueOf)
            : ProseOf.Line(_clinic.Fill(_wording.Interface.GetValueOrDefault(say.Text, say.Text), null, ValueOf));
    }

    Prose Alarmed(Reply.Alarm alarm)
    {
        foreach (var signpost in _wording.Signposts)
        {
            if (string.Equals(signpost.Id, alarm.Signpost, StringComparison.Ordinal))
                return _clinic.Fill(signpost.Text, null, _ => null);
        }

        if (alarm.Level is null || !_wording.Outcomes.TryGetValue(alarm.Level, out var outcome))
            return _clinic.Fill(ProseOf.Line(_wording.Interface.GetValueOrDefault("emergency line", "emergency line")), null, _ => null);
        var lead = ProseOf.Line(Text("emergency said so far"));
        return ProseOf.Together(lead, _clinic.Fill(outcome.Headline, null, _ => null), _clinic.Fill(outcome.Meaning, null, _ => null));
    }

    ImmutableArray<TopicShown> Topics(Reply.NotKnown unknown) =>
        [.. unknown.Nearest.Where(_wording.Answers.ContainsKey).Select(id => new TopicShown(id, _wording.Answers[id].Title))];

    LetterPart.ReadBackShown ReadBack(Reply.Confirm confirm)
    {
        ImmutableArray<UnderstoodShown> shown = [.. confirm.Understood.Select(Understood)];
        var next = confirm.AskedNext.IsDefaultOrEmpty
            ? null
            : Text("read back asked next", ("list", string.Join(", ", confirm.AskedNext.Select(f => Brief(f.Fact, f.Ear)))));
        return new LetterPart.ReadBackShown(
            confirm.Name, Text("read back", ("list", string.Join("; ", shown.Select(s => s.Text)))), next, shown, Text("read back yes"), Text("read back no"));
    }

    UnderstoodShown Understood(ReadBack read)
    {
        var text = read switch
        {
            { Value: "yes" } => Brief(read.Fact, read.Ear),
            // "The left ear" says it all.
            { Fact: KnownFacts.EarsAffected } => Value(read.Fact, read.Value),
            _ => $"{Brief(read.Fact, read.Ear)}: {Value(read.Fact, read.Value)}",
        };
        return new UnderstoodShown(read, text, Text("read back wrong", ("answer", text)));
    }
}
