using System.Collections.Immutable;
using System.Text.Json.Serialization;
using EarHelp.Triage.Answers;
using NodaTime;

namespace EarHelp.Conversation.Replies;

/// <summary>An outcome exactly as it was told.</summary>
/// <param name="Level">The level's id.</param>
/// <param name="Rank">0 is the most urgent.</param>
/// <param name="SeenWithin">ISO 8601, or null: no limit.</param>
/// <param name="SeenBy">The limit as an instant, or null.</param>
/// <param name="AnswerBy">If nobody has answered by then, the next destination is the place to go; null without a limit.</param>
/// <param name="IsOverdue">True if the limit has passed when this is told.</param>
/// <param name="Destinations">In order; the first is where to go.</param>
/// <param name="ClinicIsTooLate">True if this clinic was left out because no whole visit there fits before the limit.</param>
/// <param name="Hold">The words after "not until", or null: the clinic may treat, or it is not settled.</param>
/// <param name="IsEarly">True if the most urgent level was certain and asking stopped for it.</param>
public sealed record OutcomeTold(
    string Level,
    int Rank,
    string? SeenWithin,
    Instant? SeenBy,
    Instant? AnswerBy,
    Instant DecidedAt,
    bool IsOverdue,
    ImmutableArray<DestinationTold> Destinations,
    bool ClinicIsTooLate,
    bool? MayTreat,
    string? Hold,
    ImmutableArray<AdviceTold> Advice,
    ImmutableArray<string> Warnings,
    ImmutableArray<string> Explanations,
    ImmutableArray<ReasonTold> Reasons,
    ImmutableArray<AnswerTold> Answers,
    bool IsEarly);

/// <param name="VisitAt">For the clinic: the first time at which a whole visit fits before the limit, or null.</param>
public sealed record DestinationTold(string Id, Instant? VisitAt);

/// <param name="Kind">One of the four below.</param>
public sealed record AdviceTold(string Id, string Kind, Ear? Ear)
{
    public const string ToDo = "to do";

    public const string LeaveAlone = "leave alone";

    public const string GetHelp = "get help";

    public const string Protect = "protect";
}

/// <param name="Blanks">The answers that made the row match, by fact.</param>
public sealed record ReasonTold(string Rule, Ear? Ear, bool Decides, ImmutableArray<Blank> Blanks);

/// <summary>One answer, for the clinician.</summary>
/// <param name="Value">As in a chosen answer; null: not sure.</param>
/// <param name="IsRedFlag">True for a danger sign whose answer is not the clear one.</param>
/// <param name="Earlier">An earlier, different answer that had led to the most urgent level (<see cref="Unsure"/>: it was "not sure"), or null.</param>
public sealed record AnswerTold(string Fact, Ear? Ear, string? Value, string? Earlier, bool IsRedFlag)
{
    public const string Unsure = "unsure";

    /// <summary>True if a clinician recorded it; the person was not asked, or could not clear it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingDefault)]
    public bool IsRecorded { get; init; }

    /// <summary>As a value: there is no answer any more, only an earlier one.</summary>
    public const string NotAnswered = "not asked";
}
