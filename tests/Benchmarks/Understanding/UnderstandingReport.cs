using System.Diagnostics;
using Benchmarks.Figures;
using Benchmarks.Rules;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;
using NodaTime;

namespace Benchmarks.Understanding;

/// <summary>How well the shipped phrases read the messages that lie beside the tests.</summary>
static class UnderstandingReport
{
    /// <param name="files">None: all that lie beside the tests. With <c>--totals</c> first: files of which nothing but totals may be seen.</param>
    public static void Run(string[] files)
    {
        var edition = ShippedEdition.Compile().Edition!;
        var wording = edition.Wordings["en"];
        var book = PhraseBook.Build(edition.Dialog, wording);
        var onlyTotals = files is ["--totals", ..];
        if (files.Length == 0)
            files = Directory.GetFiles(Folder, "*.jsonl");
        var utterances = files.Skip(onlyTotals ? 1 : 0).SelectMany(f => Utterance.ReadFile(f)).ToList();
        var score = Score.Of(utterances, book, wording, text => TopicReader.Read(book, text)?.Found?.Id);
        if (!onlyTotals)
        {
            var reasons = ErrorReasons.ReadFile(Path.Combine(Folder, "reasons.md"));
            foreach (var error in score.Errors)
                Console.WriteLine($"{error}  ({reasons.Of(error)})");
            foreach (var (reason, count) in score.Errors.CountBy(reasons.Of).OrderByDescending(r => r.Value))
                Console.WriteLine($"{count,4}  errors: {reason}");
            foreach (var (error, count) in score.Confusions.Where(c => c.Value > 1))
                Console.WriteLine($"{count,4}  {error}");
        }

        Console.WriteLine($"""
            messages             {utterances.Count}
            facts                {score.Facts}
            denials              {score.Denials}
            times                {score.Times}
            right ear            {score.Ears.Right} of {score.Ears.Of}
            denied, read as said {score.DeniedAsAffirmed}
            danger signs found   {score.RedFlags.Found} of {score.RedFlags.Of}
            signposts            {score.Signposts.Right} of {score.Signposts.Of}; shown though the writer named none {score.SignpostsUnasked}
            topic                {score.Topics.Right} of {score.Topics.Of}; found though nothing is asked {score.TopicsUnasked}
            a message of 40 to 60 words  {MedianMicroseconds(utterances.Where(u => u.Text.Split(' ').Length is >= 40 and <= 60).Select(u => u.Text), book):0} microseconds (median)
            10,000 hostile letters       {MedianMicroseconds([Hostile], book) / 1000:0.0} milliseconds
            """);
    }

    static string Folder { get; } = Path.Combine(Places.Root, "tests", "EarHelp.Understanding.Tests", "Utterances");

    /// <summary>Words that begin many phrases and end none.</summary>
    static string Hostile { get; } = string.Concat(Enumerable.Repeat("no ear cant hear not my the of since and ", HostileLetters / 40));

    const int HostileLetters = 10_000, Rounds = 30;

    static double MedianMicroseconds(IEnumerable<string> texts, PhraseBook book)
    {
        var times = new List<double>();
        foreach (var text in texts)
        {
            for (var round = 0; round < Rounds; round++)
            {
                var start = Stopwatch.GetTimestamp();
                MessageReader.Read(book, text, Today);
                times.Add(Stopwatch.GetElapsedTime(start).TotalMicroseconds);
            }
        }

        return times.Order().ElementAtOrDefault(times.Count / 2);
    }

    static readonly LocalDate Today = new(2026, 8, 5);
}
