using System.Collections.Immutable;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Readings;

/// <summary>Reads a message. Takes time linear in its length; knows no word that is not in the edition.</summary>
public static class Reader
{
    /// <param name="asked">The question that is open, or null.</param>
    /// <param name="today">The date at the clinic.</param>
    public static Reading Read(Lexicon lexicon, string text, AskedNow? asked, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(lexicon);
        ArgumentNullException.ThrowIfNull(text);
        var words = WordList.Of(text);
        if (words.IsEmpty)
            return Reading.Nothing;
        var mended = new string[words.Length];
        for (var i = 0; i < words.Length; i++)
            mended[i] = lexicon.Spelling.Mend(words[i].Text);
        var plain = asked is null ? null : new PlainReader(lexicon, asked, today).Read(words, mended);
        var (claims, signposts) = Scan(lexicon, words, mended);
        return new Reading(plain, claims, signposts);
    }

    /// <summary>Whether the whole message is a yes or a no; null: it is neither.</summary>
    public static bool? ReadYesNo(Lexicon lexicon, string text)
    {
        ArgumentNullException.ThrowIfNull(lexicon);
        var words = WordList.Of(text);
        if (words.IsEmpty)
            return null;
        var whole = lexicon.Phrases.Whole([.. words.Select(w => lexicon.Spelling.Mend(w.Text))]);
        return whole.Any(m => m is Meaning.OfYes) ? true : whole.Any(m => m is Meaning.OfNo) ? false : null;
    }

    static (ImmutableArray<Claim> Claims, ImmutableArray<SeenSignpost> Signposts) Scan(
        Lexicon lexicon, ImmutableArray<Word> words, string[] mended)
    {
        var claims = new List<(Claim Claim, int First, int Last)>();
        var signposts = new List<SeenSignpost>();
        var denials = new Denials(lexicon, words, mended);
        for (var at = 0; at < words.Length; at++)
        {
            var first = at;
            lexicon.Phrases.Match(mended, at, (length, meanings) =>
            {
                var last = first + length - 1;
                var span = TextSpan.Cover(words[first].Span, words[last].Span);
                var certainty = denials.Reach(first, last) ? Certainty.Denied : CertaintyOf(words, mended, first, last);
                foreach (var meaning in meanings)
                {
                    if (meaning is Meaning.OfSignpost seen)
                        signposts.Add(new SeenSignpost(seen.Signpost, span, certainty));
                    else if (meaning is Meaning.OfValue value)
                        claims.Add((new Claim(value.Fact, value.Values, value.Written, span, certainty), first, last));
                }
            });
        }

        return (WithoutThoseInsideLonger(claims), [.. signposts]);
    }

    static Certainty CertaintyOf(ImmutableArray<Word> words, string[] mended, int first, int last)
    {
        for (var i = first; i <= last; i++)
        {
            if (!string.Equals(words[i].Text, mended[i], StringComparison.Ordinal))
                return Certainty.Mended;
        }

        return Certainty.Said;
    }

    /// <summary>"Not dull" is not "dull": of two phrases about one fact, one inside the other, the longer is meant.</summary>
    static ImmutableArray<Claim> WithoutThoseInsideLonger(List<(Claim Claim, int First, int Last)> claims)
    {
        claims.Sort((a, b) => a.First != b.First ? a.First.CompareTo(b.First) : b.Last.CompareTo(a.Last));
        var kept = ImmutableArray.CreateBuilder<Claim>();
        var widest = new Dictionary<int, (int First, int Last)>();
        foreach (var (claim, first, last) in claims)
        {
            if (widest.TryGetValue(claim.Fact, out var before) && last <= before.Last)
            {
                if (before == (first, last))
                    kept.Add(claim);
                continue;
            }

            widest[claim.Fact] = (first, last);
            kept.Add(claim);
        }

        return kept.ToImmutable();
    }
}
