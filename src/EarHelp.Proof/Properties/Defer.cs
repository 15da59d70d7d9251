using System.Collections.Immutable;
using EarHelp.Proof.Findings;
using EarHelp.Triage.Diagrams;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Rules;
using EarHelp.Triage.Texts;

namespace EarHelp.Proof.Properties;

/// <summary>
/// Every outcome says who to see, what would make it more urgent, that a clinician decides, and what to do if nobody has answered by a
/// time.
/// </summary>
static class Defer
{
    /// <summary>The blank for the time until which an answer is waited for.</summary>
    public const string AnswerBy = "answer by";

    public static IEnumerable<Finding> Of(ProofContext proof) => [.. NobodyToSee(proof), .. LeftOut(proof)];

    static IEnumerable<Finding> NobodyToSee(ProofContext proof)
    {
        var space = proof.Space;
        foreach (var level in proof.Dialog.Levels)
        {
            var lost = space.Where(space.Roots.Urgency, n => space.Places[n].Rank == level.Rank && !EndsOpen(proof.Dialog, space.Places[n].Destinations));
            if (lost == Terminal.False)
                continue;
            var (classes, asked) = proof.Smallest.PathIn(lost);
            yield return new NobodyToSee(level.Id, proof.RowDeciding(classes), proof.Smallest.Told(classes, asked), proof.Count(lost));
        }
    }

    static bool EndsOpen(Dialog dialog, ImmutableArray<int> places) =>
        !places.IsEmpty && dialog.Destinations[places[^1]].Hours == DestinationHours.Always;

    static IEnumerable<Finding> LeftOut(ProofContext proof)
    {
        if (proof.Edition is null)
            yield break;
        var space = proof.Space;
        foreach (var wording in proof.Edition.Wordings.Values.OrderBy(w => w.Language, StringComparer.Ordinal))
        {
            foreach (var level in proof.Dialog.Levels)
            {
                var reaching = space.Where(space.Roots.Level, rank => rank == level.Rank);
                if (reaching == Terminal.False || !wording.Outcomes.TryGetValue(level.Id, out var words))
                    continue;
                foreach (var what in Missing(level, words))
                    yield return new OutcomeLeavesOut(level.Id, wording.Language, what, [words.Headline.Spot, level.Spot], proof.Smallest.Of(reaching), proof.Count(reaching));
            }

            foreach (var place in proof.Dialog.Destinations.Where(d => !wording.Destinations.TryGetValue(d.Id, out var said) || said.IsEmpty))
            {
                var sent = space.Where(space.Roots.Urgency, n => space.Places[n].Destinations.Contains(place.Index));
                if (sent != Terminal.False)
                    yield return new OutcomeLeavesOut(place.Id, wording.Language, "who is meant by this destination", [place.Spot], proof.Smallest.Of(sent), proof.Count(sent));
            }
        }
    }

    static IEnumerable<string> Missing(Level level, OutcomeWords words)
    {
        if (words.MoreUrgent.IsEmpty)
            yield return "what would make it more urgent";
        if (words.WhoDecides.IsEmpty)
            yield return "that a clinician decides";
        if (words.IfNobodyAnswered.IsEmpty)
            yield return "what to do if nobody has answered";

        // At once there is nothing to wait for, and a level without a limit names no moment.
        else if (level is { Rank: > 0, Within: not null } && !Blanks(words.IfNobodyAnswered).Contains(AnswerBy))
            yield return $"by when an answer is to be there ({{{AnswerBy}}})";
    }

    static IEnumerable<string> Blanks(Prose prose) =>
        prose.Blocks.SelectMany(block => block.Lines).SelectMany(line => line).Select(inline => inline switch
        {
            Inline.Blank blank => blank.Name,
            _ => "",
        });
}
