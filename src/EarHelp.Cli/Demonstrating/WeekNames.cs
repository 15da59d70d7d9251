using EarHelp.Clinic.Staff;
using EarHelp.Content.Demonstrations;

namespace EarHelp.Cli.Demonstrating;

/// <summary>The names in the file of the week that this program acts upon.</summary>
static class WeekNames
{
    public const string ToldEachLevel = "told each level", AnsweredAtEach = "answered at each level", LeftHalfWay = "left half-way", NotSure = "not sure", Blocked = "blocked";

    public const string Nothing = "nothing", Booked = "booked", Moved = "moved", Cancelled = "cancelled", DidNotCome = "did not come", Offered = "offered",
        Telephoned = "telephoned", NotReached = "not reached", SentElsewhere = "sent elsewhere", Raised = "raised", Lowered = "lowered", TakenBack = "taken back";

    public const string Told = "told", BrokenOff = "broken off", FollowedUp = "followed up";

    public const string Patient = "patient";

    public static KnownInWeek All { get; } = new(
        [.. Enum.GetValues<StaffRole>().Where(r => r != StaffRole.System).Select(r => r.ToString().ToLowerInvariant())],
        [ToldEachLevel, AnsweredAtEach, LeftHalfWay, NotSure, Blocked],
        [Nothing, Booked, Moved, Cancelled, DidNotCome, Offered, Telephoned, NotReached, SentElsewhere, Raised, Lowered, TakenBack],
        [Raised, Lowered],
        [SentElsewhere],
        [Told, BrokenOff, FollowedUp],
        Patient);
}
