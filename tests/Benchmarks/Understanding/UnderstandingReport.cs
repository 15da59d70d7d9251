using Benchmarks.Figures;
using Benchmarks.Rules;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Tests.Scoring;

namespace Benchmarks.Understanding;

/// <summary>How well the shipped phrases read the messages that lie beside the tests.</summary>
static class UnderstandingReport
{
    /// <param name="files">With <c>--totals</c> first: files of which nothing but totals may be seen.</param>
    public static void Run(string[] files)
    {
        var edition = ShippedEdition.Compile().Edition!;
        var wording = edition.Wordings["en"];
        var book = PhraseBook.Build(edition.Dialog, wording);
        var onlyTotals = files is ["--totals", ..];
        if (files.Length == 0)
            files = [Path.Combine(Places.Root, "tests", "EarHelp.Understanding.Tests", "Utterances", "tuning.jsonl")];
        var utterances = files.Skip(onlyTotals ? 1 : 0).SelectMany(f => Utterance.ReadFile(f)).ToList();
        var score = Score.Of(utterances, book, wording, text => TopicReader.Read(book, text)?.Found?.Id);
        if (!onlyTotals)
        {
            foreach (var error in score.Errors)
                Console.WriteLine(error);
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
            signposts            {score.Signposts.Right} of {score.Signposts.Of}
            topic                {score.Topics.Right} of {score.Topics.Of}; found though nothing is asked {score.TopicsUnasked}
            """);
    }
}
