using EarHelp.Clinic.Times;
using EarHelp.Triage.Editions;
using NodaTime;

namespace EarHelp.Clinic.Tests.Times;

public sealed class VisitKindTests
{
    static readonly VisitLengths Lengths = new(30, 45, 15, 15, 60, 28, 15);

    [Theory]
    [InlineData(false, false, 30)]
    [InlineData(true, false, 45)]
    [InlineData(false, true, 45)]
    [InlineData(true, true, 60)]
    public void Both_ears_and_a_first_visit_take_longer(bool bothEars, bool first, int minutes)
    {
        Assert.Equal(Duration.FromMinutes(minutes), new VisitKind(bothEars, first).LengthIn(Lengths));
    }
}
