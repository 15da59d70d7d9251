using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Conversation.Stepping;
using NodaTime;

namespace EarHelp.Conversation.Tests.Examples;

/// <summary>How many questions a first message saves each example patient, and whose outcome it changes.</summary>
/// <param name="Tapped">By patient: questions answered by tapping.</param>
/// <param name="Typed">The same after a first message; a read-back counts as a question.</param>
/// <param name="AlwaysAsked">Of those that are tapped: with a danger sign, or a fact that forbids advice, which no text answers.</param>
/// <param name="Otherwise">Patients who were told something else.</param>
sealed record SavedQuestions(ImmutableArray<int> Tapped, ImmutableArray<int> Typed, ImmutableArray<int> AlwaysAsked, ImmutableArray<string> Otherwise)
{
    /// <param name="now">A moment at which the clinic is open.</param>
    public static SavedQuestions Of(ServedEdition edition, IEnumerable<ExampleRun> runs, Instant now)
    {
        var writer = new FirstMessage(edition.Dialog, edition.Edition.Wordings["en"], now.InZone(edition.Edition.Clinic.Zone).Date);
        var (tapped, typed, always, otherwise) = (new List<int>(), new List<int>(), new List<int>(), new List<string>());
        foreach (var run in runs.Where(r => r.Example.IsClosed))
        {
            var taps = new ExampleTalk(edition, run, now).Hold(null);
            var types = new ExampleTalk(edition, run, now).Hold(writer.Of(run));
            tapped.Add(taps.Questions);
            typed.Add(types.Questions);
            always.Add(taps.AlwaysAsked);
            if (taps.Told is not { } one || types.Told is not { } other || one.Level != other.Level || one.Hold != other.Hold || !one.Advice.SequenceEqual(other.Advice))
                otherwise.Add($"{run.Example.Name}: {taps.Told?.Level}, after the message {types.Told?.Level}");
        }

        return new SavedQuestions([.. tapped], [.. typed], [.. always], [.. otherwise]);
    }

    public static int Median(ImmutableArray<int> counts) => counts.Sort().ElementAtOrDefault(counts.Length / 2);
}
