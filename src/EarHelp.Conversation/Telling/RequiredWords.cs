using System.Collections.Immutable;
using EarHelp.Conversation.Stepping;

namespace EarHelp.Conversation.Telling;

/// <summary>The keys of all texts that the conversation says: an edition that lacks one is not served.</summary>
public static class RequiredWords
{
    /// <summary>Names of pages.</summary>
    public static ImmutableArray<string> Pages { get; } = ["greeting", "return link", AnswerLetter.OutOfDate, Withholding.AllKey, Withholding.OutcomeKey, Withholding.CorrectedKey];

    /// <summary>Keys of short texts.</summary>
    public static ImmutableArray<string> Interface { get; } =
    [
        "emergency line", "emergency said so far", "emergency stays", "emergency number in country", "emergency here or abroad",
        "start heading", "start form why",
        "yes", "no", "not sure", "none of these", "started over", "restored",
        "why we ask", "second wording", "second wording unsure", "choose one", "choose all", "ear question",
        "read back", "read back asked next", "read back yes", "read back no", "read back wrong", "heard in text", "emergency mentioned", "question not known", Sayings.ShareWords, "share words yes", Sayings.WordsShared, "share words no", "share words taken back", "understood already", "greeting back", "thanks back",
        "not asked", "unsure answer", "between", "number hint", "number with unit", "date hint",
        "today", "yesterday", "days ago one", "days ago many",
        "moment", "date in words", "time in words", "before noon", "after noon", "zone other",
        "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday",
        "month 1", "month 2", "month 3", "month 4", "month 5", "month 6",
        "month 7", "month 8", "month 9", "month 10", "month 11", "month 12",
        "the ear left self", "the ear right self", "the ear one self", "either ear self",
        "the ear left other", "the ear right other", "the ear one other", "either ear other",
        "left ear", "right ear", "the ear each", "for ear", "for each ear",
        "nothing chosen", "none and others", "yes and unsure",
        "number not understood", "number out of range", "number step",
        "date not understood", "date in the future", "date too early",
        "text too long", "text empty", "not understood 1", "not understood 2", "not understood 3",
        "answers disagree", "answers dropped", "nothing dropped", "stale answer", "plan changed lead", "plan stays",
        "how soon", "by when now", "by when words", "no time limit", "overdue", "overdue next",
        "where", "where first", "where next", "clinic can", "clinic cannot",
        "clinic may treat", "clinic may treat yes", "clinic may treat not yet",
        "what to do", "leave alone", "protect", "get help", "take note", "more urgent", "good to know",
        "why this answer", "why this answer lead", "reasons less", "counted as worse",
        "tell the clinician", "tell the clinician lead", "tell no", "tell no ear", "tell changed",
        "known from the visit", "visit corrected", "recorded at the visit", "counts the visit",
        "answer not for you", "answer follows", "answer advice",
        "drops plan", "drops plan day", "drops plan day if needed", "drops plan end", "drops plan ears",
        "drops plan total", "drops plan lasts", "drops plan short", "figures",
        "if nobody answered", "if nobody answered by", "who decides",
        "type several",
    ];

    /// <summary>Keys that a language may leave out: other ways to say a short word, words never mended to.</summary>
    public static ImmutableArray<string> Optional { get; } =
    [
        "yes said as", "no said as", "not sure said as", "none of these said as", "today said as", "yesterday said as",
        "easily confused", "greeting back said as", "thanks back said as",
    ];
}
