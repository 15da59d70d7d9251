using System.Text.Json;
using EarHelp.Content.Sources;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Facts;
using EarHelp.Understanding.Messages;

namespace EarHelp.Conversation.Tests.Stepping;

/// <summary>What holds whatever is typed, over all invented messages of the understanding tests: text raises concern and never lowers it.</summary>
public sealed class SafetyOfTextTests
{
    static readonly Lazy<string[]> Texts = new(() =>
    [
        .. Directory.EnumerateFiles(Path.Combine(SourceFolder.FindRoot(AppContext.BaseDirectory)!, "tests", "EarHelp.Understanding.Tests", "Utterances"), "*.jsonl")
            .Order(StringComparer.Ordinal).SelectMany(File.ReadLines).Where(l => l.Length > 0).Select(TextOf),
    ]);

    [Fact]
    public void No_text_answers_a_danger_sign_or_what_forbids_advice_even_when_the_read_back_is_confirmed() =>
        Hold(patient =>
        {
            if (patient.Replies[^1] is Reply.Confirm)
                patient.Type("yes");

            return patient.State.Answers.Any(a => MustBeAsked(a.Of.Fact)) ? "answered what must be asked" : null;
        });

    [Fact]
    public void A_danger_sign_in_any_form_is_asked_about_before_anything_else() =>
        Hold((patient, said) =>
        {
            if (patient.Replies[^1] is Reply.Confirm)
                patient.Type("yes");
            var signs = Signs(said);
            if (signs.Count == 0)
                return null;
            for (var steps = 0; patient.Asked is { } question && steps < 4; steps++)
            {
                if (question.Facts.Any(f => signs.Contains(f.Fact)))
                    return null;
                if (question.Facts[0].Fact != "ears affected")
                    return $"asked {question.Name.Screen} before {string.Join(", ", signs)}";
                patient.Answer();
            }

            return patient.Told is null && patient.Asked is not null ? $"never asked {string.Join(", ", signs)}" : null;
        });

    [Fact]
    public void An_emergency_that_is_said_shows_its_text_at_once() =>
        Hold((patient, said) =>
        {
            var missing = said.Signposts.Where(s => s.Standing == Standing.Affirmed).Select(s => Signposts[s.Signpost].Id)
                .Where(id => patient.Alarms.All(a => a.Signpost != id)).ToList();
            return missing.Count == 0 ? null : $"no text for {string.Join(", ", missing)}";
        });

    [Fact]
    public void Nothing_that_is_only_denied_shows_an_emergency_text() =>
        Hold((patient, said) =>
            !said.Signposts.All(s => s.Standing == Standing.Denied) || said.Facts.Any(f => f.Standing != Standing.Denied) || !patient.Alarms.Any()
                ? null
                : "an emergency text for a denial");

    /// <summary>A danger sign may be left out only where another one, answered earlier because it was typed, already led as far.</summary>
    [Fact]
    public void Nothing_typed_skips_a_danger_sign_or_makes_the_outcome_less_urgent()
    {
        var random = new Random(20261126);
        var wrong = new List<string>();
        for (var i = 0; i < 120; i++)
        {
            var story = Stories[random.Next(Stories.Length)];
            var quiet = new HashSet<string>();
            var tapped = Hold(Tell(story), quiet, null);
            var asked = new HashSet<string>();
            var typed = Hold(Tell(story), asked, Enumerable.Range(0, 3).ToDictionary(n => (n * 4) + random.Next(4), _ => Texts.Value[random.Next(Texts.Value.Length)]));
            if (typed.Told!.Rank > tapped.Told!.Rank)
                wrong.Add($"{i}: {typed.Told.Level} instead of {tapped.Told.Level}");
            foreach (var skipped in typed.Told.Rank > 0 ? quiet.Where(IsDangerSign).Except(asked).ToList() : [])
            {
                var with = Hold(Tell([.. story, (skipped, "yes")]), [], null);
                if (with.Told!.Rank < typed.Told.Rank)
                    wrong.Add($"{i}: never asked {skipped}, which would have led to {with.Told.Level}");
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    static System.Collections.Immutable.ImmutableArray<Triage.Editions.Signpost> Signposts => Some.Edition.Edition.Wordings["en"].Signposts;

    static readonly (string Fact, string Value)[][] Stories =
    [
        [],
        [("hearing", "reduced"), ("hearing changed on", "200"), ("hearing worsened over", "100"), ("blocked", "yes")],
        [("hearing", "gone"), ("hearing changed on", "1"), ("hearing worsened over", "0")],
        [("pain", "yes"), ("pain strength", "4"), ("discharge", "yes"), ("swam lately", "yes")],
        [("blocked", "yes"), ("itch", "yes"), ("cotton buds lately", "yes")],
        [("ear noise", "yes"), ("pulsing noise", "yes")],
        [("spinning", "yes"), ("spinning lasts", "longer")],
        [("swelling behind the ear", "yes"), ("pain", "yes"), ("pain strength", "8")],
        [("blocked", "yes"), ("diabetes", "yes"), ("hole ever", "yes"), ("grommet ever", "yes")],
        [("ear cleaned lately", "yes"), ("bleeding", "yes"), ("suction was used", "yes")],
    ];

    static Patient Tell((string Fact, string Value)[] story)
    {
        var patient = new Patient();
        foreach (var (fact, value) in story)
            patient.Tell(fact, value);
        return patient;
    }

    /// <summary>To the outcome; at some questions a message is typed first, and what is read back of it is refused.</summary>
    static Patient Hold(Patient patient, HashSet<string> asked, Dictionary<int, string>? messages)
    {
        for (var step = 0; patient.Asked is { } question; step++)
        {
            asked.UnionWith(question.Facts.Select(f => f.Fact));
            if (messages is not null && messages.Remove(step, out var text))
                patient.Type(text);
            if (patient.Asked?.Name.Screen == "read back")
                patient.Type("no");
            else if (patient.Asked is { } open)
            {
                asked.UnionWith(open.Facts.Select(f => f.Fact));
                patient.Answer();
            }
        }

        return patient;
    }

    static void Hold(Func<Patient, string?> law) => Hold((patient, _) => law(patient));

    static void Hold(Func<Patient, Understanding.Messages.Said, string?> law)
    {
        var wrong = new List<string>();
        var today = Some.Morning.InZone(Some.Edition.Edition.Clinic.Zone).Date;
        foreach (var text in Texts.Value)
        {
            var patient = new Patient().Type(text);
            if (law(patient, MessageReader.Read(Some.Edition.PhrasesOf("en"), text, today)) is { } fault)
                wrong.Add($"{fault}: {text}");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>Danger signs that a message names in any way, and the facts through which alone one of them applies.</summary>
    static HashSet<string> Signs(Understanding.Messages.Said said) =>
    [
        .. said.Facts.Select(f => f.Fact).Concat(said.Signposts.SelectMany(s => Signposts[s.Signpost].Claims).Where(c => !c.Of.IsNamedFact).Select(c => c.Of.Index))
            .Where(f => Fact(f).RedFlag is RedFlag.Marked).SelectMany(WithConditions).Select(f => Fact(f).Id),
    ];

    static IEnumerable<int> WithConditions(int fact) =>
        Fact(fact).AppliesWhen.Where(c => !c.Of.IsNamedFact).SelectMany(c => WithConditions(c.Of.Index)).Append(fact);

    static bool IsDangerSign(string fact) => Some.Edition.Dialog.FindFact(fact)!.RedFlag is RedFlag.Marked;

    static bool MustBeAsked(int fact) =>
        Fact(fact).RedFlag is RedFlag.Marked || (Fact(fact) is { AppliesWhen.IsEmpty: true, AskIn: not AskIn.Form } && Some.Edition.Dialog.Advice.SelectMany(a => a.NeverIf).Any(c => !c.Of.IsNamedFact && c.Of.Index == fact));

    static Fact Fact(int index) => Some.Edition.Dialog.Facts[index];

    static string TextOf(string line)
    {
        using var json = JsonDocument.Parse(line);
        return json.RootElement.GetProperty("text").GetString()!;
    }
}
