using System.Text;

namespace EarHelp.Web.Tests.Staff;

/// <summary>Source of the values: RFC 6238, appendix B (SHA-1, eight figures).</summary>
public sealed class OneTimeCodeTests
{
    [Theory]
    [InlineData(59, "94287082")]
    [InlineData(1111111109, "07081804")]
    [InlineData(1234567890, "89005924")]
    [InlineData(20000000000, "65353130")]
    public void The_tests_own_app_shows_what_the_standard_shows(long unixSeconds, string code) =>
        Assert.Equal(code, OneTimeCode.Of(Encoding.ASCII.GetBytes("12345678901234567890"), unixSeconds / 30, figures: 8));
}
