using System.Collections.Immutable;
using NodaTime;

namespace EarHelp.Triage.Editions;

/// <summary>The clinic that serves this edition.</summary>
/// <param name="Text">A number for text messages: the way without hearing beside <paramref name="Phone"/>.</param>
/// <param name="VisitMinutes">Length of a whole visit: the clinic "can" only if it fits before the limit.</param>
/// <param name="EmergencyNumber">What to call where the clinic is.</param>
/// <param name="EmergencyWithoutHearing">How to reach the same without hearing.</param>
public sealed record Clinic(
    string Name,
    string Town,
    string Country,
    string Address,
    DateTimeZone Zone,
    string Phone,
    string Text,
    string Email,
    string Relay,
    int VisitMinutes,
    string EmergencyNumber,
    string EmergencyWithoutHearing,
    string CrisisLine,
    string CrisisWithoutHearing,
    ImmutableArray<OpenHours> Open,
    ImmutableArray<Closure> Closures,
    ImmutableArray<Holiday> Holidays,
    ImmutableArray<string> Offered)
{
    /// <summary>What a visit costs, in words; empty if the clinic does not say.</summary>
    public string VisitCost { get; init; } = "";

    /// <summary>Days for which a page is still shown after its review was due; 0 if the clinic does not say.</summary>
    public int ReviewGraceDays { get; init; }

    /// <summary>Days for which a request for a visit is kept after its last change; 0: the clinic takes no requests here.</summary>
    public int RequestKeptDays { get; init; }

    /// <summary>Days for which what was recorded of a visit is kept, with the conversation after it; 0: none is recorded here.</summary>
    public int VisitKeptDays { get; init; }

    /// <summary>For how many days clinicians may read what was not understood; 0: never, and nobody is asked whether they may.</summary>
    public int WordsKeptDays { get; init; }

    /// <summary>The https address under which the clinic names what it hands to record systems; empty: nothing is handed over.</summary>
    public string RecordAddress { get; init; } = "";

    /// <summary>Facts whose answers the clinic counts among its figures; empty: none.</summary>
    public ImmutableArray<string> CountedAnswers
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    /// <summary>The yes/no fact among whose "yes" they are counted; null with <see cref="CountedAnswers"/> empty.</summary>
    public string? CountedAmong { get; init; }

    /// <summary>Whole days after the day of a visit on which the patient is asked how it is, in order; empty: nobody is asked.</summary>
    public ImmutableArray<int> CheckInDays
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    /// <summary>How many days before the day of a booked visit the patient is reminded and asked whether anything has changed; 0: never.</summary>
    public int ReminderDays { get; init; }

    /// <summary>From when on messages may be sent, at the clinic.</summary>
    public LocalTime MessagesFrom { get; init; } = LocalTime.Midnight;

    /// <summary>From then on no message is sent until the next day; the moment itself is outside.</summary>
    public LocalTime MessagesTo { get; init; } = LocalTime.MaxValue;

    /// <summary>Who sees patients in which room and when, each within the opening hours; empty: one visit at a time, by nobody in particular.</summary>
    public ImmutableArray<Sitting> Sittings
    {
        get => field.IsDefault ? [] : field;
        init;
    } = [];

    /// <summary>How times for visits are planned; null: none are offered on the pages.</summary>
    public VisitLengths? Lengths { get; init; }
}

/// <summary>How long visits take, by kind, and when they may start. Every length is in minutes.</summary>
/// <param name="FirstVisitMore">What a person's first visit takes more.</param>
/// <param name="StartsEvery">Visits start at the opening and every so many minutes after it.</param>
/// <param name="NoticeMinutes">The clinic needs so long before the first visit that is asked for.</param>
/// <param name="HoldMinutes">A time is held so long while a person looks at it once more.</param>
/// <param name="DaysAhead">No visit is planned later than so many days from now.</param>
public sealed record VisitLengths(int OneEar, int BothEars, int FirstVisitMore, int StartsEvery, int NoticeMinutes, int DaysAhead, int HoldMinutes);

/// <param name="To">The end is outside.</param>
public sealed record OpenHours(IsoDayOfWeek Day, LocalTime From, LocalTime To);

/// <summary>When somebody sees patients, in one room. Nobody and no room has two at the same time.</summary>
/// <param name="To">The end is outside.</param>
public sealed record Sitting(string By, string Room, IsoDayOfWeek Day, LocalTime From, LocalTime To);

/// <summary>Whole days on which the clinic is closed, both ends included.</summary>
public sealed record Closure(LocalDate From, LocalDate To, string Because);

public sealed record Holiday(LocalDate Date, string Name);

/// <summary>What to call abroad.</summary>
/// <param name="Elsewhere">One sentence for any country that is not listed.</param>
/// <param name="AnyOther">The same as a row: what fills the emergency blanks abroad while the country is not known. Null with <paramref name="Abroad"/>.</param>
/// <param name="Abroad">Holds for a person who is in another country; null: the blanks are always filled for the clinic's own.</param>
public sealed record EmergencyNumbers(
    ImmutableArray<EmergencyNumber> Countries, Texts.Prose Elsewhere, EmergencyNumber? AnyOther = null, Rules.Condition? Abroad = null);

public sealed record EmergencyNumber(string Country, string Call, string WithoutHearing, string Source);
