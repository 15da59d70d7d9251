using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Asking;
using EarHelp.Triage.Facts;

namespace EarHelp.Conversation.Stepping;

/// <summary>
/// Takes a conversation into a corrected edition. An answer goes with it if its question, read aloud, is the same in both; all else is
/// asked again. Nothing that was told before is kept but the level that may not become less urgent.
/// </summary>
public static class Moving
{
    public static ConversationState Into(ServedEdition next, ServedEdition before, ConversationState state)
    {
        ArgumentNullException.ThrowIfNull(next);
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(state);
        var language = next.LanguageOr(state.Language);
        var isSelf = before.IsAboutSelf(state);
        ImmutableArray<int?> places = [.. before.Dialog.Facts.Select(f => SameIn(next, before, f, state.Language, language, isSelf))];
        return state with
        {
            EditionId = next.Edition.Id,
            Language = language,
            Answers = [.. Carried(state.Answers, places).OrderBy(a => a.Of.Fact).ThenBy(a => a.Of.Ear)],
            Recorded = [.. state.Recorded.Select(r => RecordedIn(next, before, r)).OfType<RecordedValue>()],
            Earlier = Carried(state.Earlier, places),
            Pending = state.Pending is { ReadBack.IsEmpty: true } asked && IsSame(next, before, asked.Question, places) ? asked : null,
            SecondWordingDue = Carried(state.SecondWordingDue, places),
            Raised = Carried(state.Raised, places),
            Heard = [],
            Doubted = Carried(state.Doubted, places),
            Reached = [.. state.Reached.Select(r => r with { Rank = RankIn(next, before, r.Rank) })],
            Told = null,
            Floor = FloorIn(next, before, state.Floor),
            About = null,
            IsWithheld = false,
            IsMoved = true,
        };
    }

    /// <summary>Where the fact is in the other edition, if its values and its question there are the same.</summary>
    static int? SameIn(ServedEdition next, ServedEdition before, Fact fact, string language, string nextLanguage, bool isSelf) =>
        next.FactIndex(fact.Id) is { } place && next.Dialog.Facts[place] is var other
        && other.About == fact.About && other.Counted == fact.Counted && other.Values.Count == fact.Values.Count
        && Enumerable.Range(0, fact.Values.Count).All(i => other.Values.NameOf(i) == fact.Values.NameOf(i))
        && ReadAloud(before, fact.Index, language, isSelf) == ReadAloud(next, place, nextLanguage, isSelf)
            ? place
            : null;

    /// <summary>What a clinician recorded goes with its fact and value, however the question reads. Null if the other edition lacks one of them.</summary>
    static RecordedValue? RecordedIn(ServedEdition next, ServedEdition before, RecordedValue recorded)
    {
        var fact = before.Dialog.Facts[recorded.Of.Fact];
        var isSamePlace = next.FactIndex(fact.Id) is { } at && next.Dialog.Facts[at].About == fact.About;
        if (!isSamePlace || recorded.Set.Only is not { } only)
            return null;
        var place = next.FactIndex(fact.Id)!.Value;
        return next.Dialog.Facts[place].Values.IndexOf(fact.Values.NameOf(only)) is { } value
            ? new RecordedValue(recorded.Of with { Fact = place }, ValueSet.Of(value), recorded.Until)
            : null;
    }

    /// <summary>The fact's question with its options, as it is asked by itself.</summary>
    static string ReadAloud(ServedEdition edition, int fact, string language, bool isSelf)
    {
        var words = edition.WriterOf(language, isSelf);
        var screen = QuestionMaker.Together(edition.ScreenOf[fact], null, [fact]);
        var asked = new Reply.Ask(QuestionMaker.Of(edition, language, screen, 1, 0));
        return PlainText.Of(words.Write(asked, default), words);
    }

    static bool IsSame(ServedEdition next, ServedEdition before, Question question, ImmutableArray<int?> places) =>
        (question.Kind == QuestionKind.Form || next.Screen(question.Name.Screen) is not null)
        && question.Facts.All(f => before.FactIndex(f.Fact) is { } fact && places[fact] is not null);

    static ImmutableArray<GivenAnswer> Carried(ImmutableArray<GivenAnswer> answers, ImmutableArray<int?> places) =>
        [.. answers.Where(a => places[a.Of.Fact] is not null).Select(a => a with { Of = a.Of with { Fact = places[a.Of.Fact]!.Value } })];

    static ImmutableArray<FactOfEar> Carried(ImmutableArray<FactOfEar> facts, ImmutableArray<int?> places) =>
        [.. facts.Where(f => places[f.Fact] is not null).Select(f => f with { Fact = places[f.Fact]!.Value })];

    /// <summary>The same level; if the other edition has it no more, the next more urgent one that both have.</summary>
    static int RankIn(ServedEdition next, ServedEdition before, int rank)
    {
        for (var at = rank; at > 0; at--)
        {
            if (next.Dialog.Levels.FirstOrDefault(l => l.Id == before.Dialog.Levels[at].Id) is { } same)
                return same.Rank;
        }

        return 0;
    }

    /// <summary>
    /// The level stays with its time, its places, and what was to be left alone, as far as the other edition knows them. If it knows none of
    /// the places, all to which its own rows of that level send take their part.
    /// </summary>
    static OutcomeTold? FloorIn(ServedEdition next, ServedEdition before, OutcomeTold? floor)
    {
        if (floor is null)
            return null;
        var rank = RankIn(next, before, floor.Rank);
        var places = floor.Destinations.RemoveAll(d => !next.Dialog.Destinations.Any(k => k.Id == d.Id));
        return floor with
        {
            Level = next.Dialog.Levels[rank].Id,
            Rank = rank,
            Hold = null,
            Destinations = places.IsEmpty ? [.. PlacesOf(next, rank)] : places,
            Advice = floor.Advice.RemoveAll(a => a.Kind == AdviceTold.ToDo || !next.Dialog.Advice.Any(k => k.Id == a.Id)),
            Warnings = [],
            Explanations = [],
            Reasons = [],
            Answers = [],
        };
    }

    static IEnumerable<DestinationTold> PlacesOf(ServedEdition edition, int rank) =>
        edition.Dialog.Rules.Where(r => r.Level == rank).SelectMany(r => r.Where).Distinct().Order()
            .Select(d => new DestinationTold(edition.Dialog.Destinations[d].Id, null));
}
