using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Clinic.Tests.Requests;

public sealed class UrgencyTests
{
    static readonly Instant Noon = Instant.FromUtc(2026, 11, 26, 12, 0);

    static readonly Urgency Day = new("within a day", 2, Noon + Duration.FromHours(24), Noon + Duration.FromHours(12));

    static readonly Urgency Weeks = new("in two weeks", 4, Noon + Duration.FromDays(14), Noon + Duration.FromDays(7));

    static readonly Urgency NoHurry = new("no hurry", 5, null, null);

    [Fact]
    public void The_more_urgent_level_stays_whichever_came_first()
    {
        Assert.Equal(Day, Weeks.OrWorse(Day));
        Assert.Equal(Day, Day.OrWorse(Weeks));
        Assert.Equal(Weeks, NoHurry.OrWorse(Weeks));
    }

    [Fact]
    public void An_earlier_limit_never_moves_later()
    {
        var later = Day with { SeenBy = Day.SeenBy + Duration.FromHours(5), AnswerBy = Day.AnswerBy + Duration.FromHours(5) };

        Assert.Equal(Day, later.OrWorse(Day));
        Assert.Equal(Day, Day.OrWorse(later));
    }
}
