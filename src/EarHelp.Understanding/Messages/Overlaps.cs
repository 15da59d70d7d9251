namespace EarHelp.Understanding.Messages;

/// <summary>Which of the phrases that share words of a message are meant.</summary>
static class Overlaps
{
    /// <summary>Phrases come in the order of their first words, so that only neighbours are compared.</summary>
    public static List<Finding<Phrase>> Settle(PhraseBook book, List<Finding<Phrase>> all, List<Finding<Trigger>> triggers)
    {
        var kept = new List<Finding<Phrase>>(all.Count);
        var farthest = all.Count == 0 ? 0 : all.Max(f => f.Last - f.First);
        var from = 0;
        for (var i = 0; i < all.Count; i++)
        {
            while (all[from].First < all[i].First - farthest)
                from++;
            var (isHidden, isPart) = (false, false);
            for (var other = from; other < all.Count && all[other].First <= all[i].First && !isHidden; other++)
            {
                if (!all[i].IsInside(all[other]) || IsOver(all[other], triggers))
                    continue;
                isHidden = Hides(all[other].Meaning, all[i].Meaning) || OnlyNames(all[other], all[i].Meaning);
                isPart |= all[i].Places.Length == 1 && IsPartOf(book, all[other], all[i].Meaning);
            }

            if (!isHidden)
                kept.Add(isPart ? all[i] with { Meaning = all[i].Meaning with { OnlyMentions = true } } : all[i]);
        }

        return kept;
    }

    /// <summary>The longer of two phrases about the same thing is meant, and one that says nothing hides all that is inside it.</summary>
    static bool Hides(Phrase longer, Phrase shorter) =>
        longer is { Fact: null, Signpost: null } || (longer.Fact == shorter.Fact && longer.Signpost == shorter.Signpost && (!longer.OnlyMentions || shorter.OnlyMentions));

    /// <summary>The whistling of a hearing aid is no ear noise: words without a gap that say something else, around a vague one.</summary>
    static bool IsPartOf(PhraseBook book, Finding<Phrase> longer, Phrase shorter) =>
        shorter.Fact is { } vague && book.HiddenInside.Contains(vague) && longer.Meaning.Fact != vague && !longer.Meaning.OnlyMentions && IsWithoutGap(longer);

    static bool IsWithoutGap(Finding<Phrase> phrase) => phrase.Last - phrase.First < phrase.Places.Length;

    /// <summary>"Nearly fainted", listed as no more than a mention and written without a gap, hides the "fainted" in it.</summary>
    static bool OnlyNames(Finding<Phrase> longer, Phrase shorter) =>
        longer.Meaning.OnlyMentions && longer.Meaning.Fact == shorter.Fact && IsWithoutGap(longer);

    // A phrase with a denial in its gap says the opposite, and hides nothing.
    static bool IsOver(Finding<Phrase> phrase, List<Finding<Trigger>> triggers) =>
        phrase.Last - phrase.First >= phrase.Places.Length
        && triggers.Exists(t => t.Meaning.Kind == "denies what follows" && t.First > phrase.First && t.Last < phrase.Last && !phrase.Holds(t.First));
}
