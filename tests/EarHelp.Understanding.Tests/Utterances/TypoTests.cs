using EarHelp.Triage.Facts;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;
using EarHelp.Understanding.Words;
using NodaTime;

namespace EarHelp.Understanding.Tests.Utterances;

/// <summary>
/// Every message beside the tests with one letter of one longer word left out, doubled, or swapped with its neighbour: the four slips of
/// Damerau, "A technique for computer detection and correction of spelling errors" (1964), but for the replaced letter.
/// </summary>
public class TypoTests
{
    const int LettersOfLongerWord = 5;

    static readonly List<Misspelt> All = [.. Messages().Select(Misspelt.Of)];

    [Fact]
    public void No_slip_makes_a_danger_sign_that_is_denied_a_thing_that_is_said()
    {
        var turned = All.Where(m => m.Wrong.Facts.Any(f => f.Standing == Standing.Affirmed && IsDanger(f) && m.Right.Facts.Any(r => r.Fact == f.Fact && r.Standing == Standing.Denied)
            && !m.Right.Facts.Any(r => r.Fact == f.Fact && r.Standing == Standing.Affirmed))).Select(m => m.Text).ToList();

        Assert.Empty(turned);
    }

    [Fact]
    public void A_slip_shows_no_emergency_that_was_not_written()
    {
        var alarms = All.Where(m => m.Wrong.Signposts.Any(s => s.Standing == Standing.Affirmed && m.Right.Signposts.All(r => r.Signpost != s.Signpost))).Select(m => m.Text).ToList();

        Assert.Empty(alarms);
    }

    /// <summary>A danger sign that a slip hides is asked about like every other, since nothing that is typed leaves a question out.</summary>
    [Fact]
    public void A_slip_hides_few_danger_signs()
    {
        var named = All.Sum(m => Dangers(m.Right).Count());

        var kept = All.Sum(m => Dangers(m.Right).Intersect(Dangers(m.Wrong)).Count());

        Assert.InRange(kept, (int)(named * 0.95), named);
    }

    static IEnumerable<int> Dangers(Said said) => said.Facts.Where(IsDanger).Select(f => f.Fact).Distinct();

    static bool IsDanger(SaidFact said) => Some.Dialog.Facts[said.Fact].RedFlag is RedFlag.Marked;

    static IEnumerable<Utterance> Messages() =>
        TuningTests.Files.SelectMany(f => Utterance.ReadFile(TuningTests.PathOf(f)));

    sealed record Misspelt(string Text, Said Right, Said Wrong)
    {
        public static Misspelt Of(Utterance message)
        {
            var today = LocalDate.FromDateTime(message.At);
            var text = WithSlip(message.Text, message.Id.Sum(c => c));
            return new Misspelt(text, MessageReader.Read(Some.Book, message.Text, today), MessageReader.Read(Some.Book, text, today));
        }

        /// <param name="choice">Which word, which letter and which slip.</param>
        static string WithSlip(string text, int choice)
        {
            var words = WordList.Of(text).Where(w => w.Text.Length >= LettersOfLongerWord && w.Text.All(char.IsAsciiLetter)).ToList();
            if (words.Count == 0)
                return text;
            var span = words[choice % words.Count].Span;
            var at = span.Start + 1 + (choice % (span.Length - 2));
            return (choice % 3) switch
            {
                0 => text.Remove(at, 1),
                1 => text.Insert(at, text[at].ToString()),
                _ => string.Concat(text.AsSpan(0, at), text.AsSpan(at + 1, 1), text.AsSpan(at, 1), text.AsSpan(at + 2)),
            };
        }
    }
}
