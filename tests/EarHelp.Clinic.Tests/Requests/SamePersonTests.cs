using EarHelp.Clinic.Requests;

namespace EarHelp.Clinic.Tests.Requests;

public sealed class SamePersonTests
{
    [Theory]
    [InlineData("07700 900123", "+44 (7700) 900123", true)]
    [InlineData("07700 900123", "07700 900124", false)]
    [InlineData("", "", false)]
    public void The_same_number_is_known_however_it_is_written(string one, string other, bool isSame) =>
        Assert.Equal(isSame, (ContactDetails.Empty with { Number = one }).IsSameAs(ContactDetails.Empty with { Number = other }));

    [Fact]
    public void The_same_address_is_known_in_capitals_too_and_an_empty_one_says_nothing()
    {
        var jo = ContactDetails.Empty with { Email = "jo@example.org" };

        Assert.True(jo.IsSameAs(ContactDetails.Empty with { Email = "JO@example.org" }));
        Assert.False(ContactDetails.Empty.IsSameAs(ContactDetails.Empty));
        Assert.False(jo.IsSameAs(null));
    }
}
