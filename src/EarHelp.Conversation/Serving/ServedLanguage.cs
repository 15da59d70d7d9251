using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Lexicons;

namespace EarHelp.Conversation.Serving;

/// <summary>What one language of an edition needs at hand. Built once, safe to share.</summary>
public sealed class ServedLanguage
{
    readonly LetterWriter _self;
    readonly LetterWriter _other;

    internal ServedLanguage(Edition edition, string language, int? aboutWhom)
    {
        Tag = language;
        var wording = edition.Wordings[language];
        Lexicon = Lexicon.Build(edition.Dialog, wording);
        _self = new LetterWriter(edition, language, isSelf: true);
        _other = new LetterWriter(edition, language, isSelf: false);
        Asked = [.. edition.Dialog.Facts.Select(f => Ask(edition.Dialog, wording, f, offersNotSure: f.Index != aboutWhom))];
    }

    public string Tag { get; }

    public Lexicon Lexicon { get; }

    /// <summary>By fact: how it is asked.</summary>
    internal ImmutableArray<AskedFact> Asked { get; }

    /// <param name="isSelf">True if the person writes about themselves.</param>
    public LetterWriter Writer(bool isSelf) => isSelf ? _self : _other;

    static AskedFact Ask(Dialog dialog, Wording wording, Fact fact, bool offersNotSure)
    {
        var screen = dialog.Screens.FirstOrDefault(s => s.Facts.Contains(fact.Index));
        var words = screen is { IsChecklist: false } ? wording.Questions.GetValueOrDefault(screen.Id) : null;
        ImmutableArray<OfferedOption> options = words is null || words.Options.IsEmpty
            ? Unlisted(fact)
            : [.. words.Options.Select((o, i) => new OfferedOption(WrittenValue.Of(fact, o.Values), i))];
        return new AskedFact(fact.Id, options, Input(fact, options.IsEmpty), offersNotSure);
    }

    static ImmutableArray<OfferedOption> Unlisted(Fact fact) => fact.Values switch
    {
        FactValues.Named { IsYesNo: true } => [new OfferedOption("yes", null), new OfferedOption("no", null)],
        FactValues.Named named => [.. named.Names.Select(n => new OfferedOption(n, null))],
        _ => [],
    };

    static TypedInput? Input(Fact fact, bool isWithoutOptions)
    {
        if (fact.Values is not FactValues.Numbers numbers)
            return null;
        if (fact.Counted is { } counted)
            return new TypedInput(TypedInput.Date, numbers.From, numbers.To, null, counted.Unit == CountUnit.Days ? "days" : "hours");
        return isWithoutOptions ? new TypedInput(TypedInput.Number, numbers.From, numbers.To, numbers.Step, numbers.Unit) : null;
    }
}
