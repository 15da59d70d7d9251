using System.Collections.Immutable;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Comparing;

/// <summary>Every text of one language by its name, free of marks.</summary>
static class WordingTexts
{
    public static SortedDictionary<string, string> Of(Wording wording, Dialog dialog)
    {
        var texts = new SortedDictionary<string, string>(StringComparer.Ordinal);
        AddAll("advice", wording.Advice);
        AddAll("warning", wording.Warnings);
        AddAll("explanation", wording.Explanations);
        AddAll("destination", wording.Destinations);
        AddAll("reason", wording.Reasons);
        AddAll("hold", wording.Holds);
        AddAll("page", wording.Pages);
        foreach (var (key, text) in wording.Interface)
            texts[$"interface: {key}"] = text;
        foreach (var signpost in wording.Signposts)
        {
            texts[$"signpost: {signpost.Id}"] = Plain(signpost.Text);
            texts[$"signpost: {signpost.Id}: said as"] = string.Join(", ", signpost.SaidAs);
        }

        foreach (var (id, page) in wording.Answers)
        {
            texts[$"answer: {id}"] = $"{page.Title} {Plain(page.Text)} {Plain(page.Next)}";
            texts[$"answer: {id}: asked as"] = string.Join(", ", page.AskedAs);
            texts[$"answer: {id}: review"] = $"{page.Review.Owner}, {page.Review.ReviewedOn:R}, {page.Review.ReviewBy:R}, {page.Review.AppliesTo}, {string.Join(", ", page.Review.Sources)}";
        }

        foreach (var entry in wording.Glossary)
            texts[$"glossary: {entry.PlainWords[0]}"] = $"{string.Join(", ", entry.PlainWords)} ({string.Join(", ", entry.Terms)}): {Plain(entry.Meaning)}";
        foreach (var (level, words) in wording.Outcomes)
        {
            foreach (var (part, prose) in new[] { ("headline", words.Headline), ("meaning", words.Meaning), ("more urgent", words.MoreUrgent), ("if nobody answered", words.IfNobodyAnswered), ("who decides", words.WhoDecides) })
                texts[$"outcome: {level}: {part}"] = Plain(prose);
        }

        foreach (var (screen, words) in wording.Questions)
            AddQuestion(screen, words);
        return texts;

        void AddAll(string kind, IReadOnlyDictionary<string, Prose> all)
        {
            foreach (var (key, prose) in all)
                texts[$"{kind}: {key}"] = Plain(prose);
        }

        void AddQuestion(string screen, QuestionWords words)
        {
            texts[$"question: {screen}"] = $"{Plain(words.Ask)} {Plain(words.Why)} {Plain(words.Note)} {Plain(words.Again)} {words.None} {words.InBrief}";
            for (var i = 0; i < words.Options.Length; i++)
                texts[$"question: {screen}: option {i + 1}"] = $"{words.Options[i].Label} {string.Join(", ", words.Options[i].SaidAs)}";
            foreach (var entry in words.Entries)
                texts[$"question: {screen}: {dialog.Facts[entry.Fact].DecidingId}"] = $"{Plain(entry.Label)} {Plain(entry.Again)} {entry.InBrief} {string.Join(", ", entry.SaidAs)}";
        }
    }

    public static string Plain(Prose prose) => prose.IsEmpty ? "" : string.Join(' ', prose.Blocks.SelectMany(block => block.Lines).Select(line => string.Concat(line.Select(Plain))));

    static string Plain(Inline inline) => inline switch
    {
        Inline.Run run => run.Text,
        Inline.Link link => $"{link.Text} ({link.Address})",
        Inline.Blank blank => $"{{{blank.Name}}}",
        Inline.Either either => $"{{{either.Self}|{either.Other}}}",
        _ => throw new System.Diagnostics.UnreachableException(),
    };
}
