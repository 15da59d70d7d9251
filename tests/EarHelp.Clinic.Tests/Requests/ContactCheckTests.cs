using EarHelp.Clinic.Requests;

namespace EarHelp.Clinic.Tests.Requests;

public sealed class ContactCheckTests
{
    [Fact]
    public void Nothing_at_all_is_no_way_to_reach_anybody()
    {
        Assert.Equal(ContactFault.NoWay, Assert.Single(ContactCheck.FaultsOf(ContactDetails.Empty)));
    }

    [Theory]
    [InlineData("07700 900123", "")]
    [InlineData("", "jo@example.org")]
    public void One_way_is_enough_and_everything_else_may_be_empty(string number, string email)
    {
        Assert.Empty(ContactCheck.FaultsOf(ContactDetails.Empty with { Number = number, Email = email }));
    }

    [Theory]
    [InlineData(ReachBy.TextMessage)]
    [InlineData(ReachBy.Call)]
    [InlineData(ReachBy.RelayCall)]
    public void A_way_by_telephone_needs_a_number(ReachBy way)
    {
        var contact = ContactDetails.Empty with { ReachBy = way, Email = "jo@example.org" };

        Assert.Equal(ContactFault.NoNumber, Assert.Single(ContactCheck.FaultsOf(contact)));
        Assert.Empty(ContactCheck.FaultsOf(contact with { Number = "+44 7700 900123" }));
    }

    [Fact]
    public void The_way_by_mail_needs_an_address()
    {
        var contact = ContactDetails.Empty with { ReachBy = ReachBy.Email, Number = "07700 900123" };

        Assert.Equal(ContactFault.NoEmail, Assert.Single(ContactCheck.FaultsOf(contact)));
    }

    [Theory]
    [InlineData("18001 01632 960150", true)]
    [InlineData("+44 (0)1632 960150", true)]
    [InlineData("112", true)]
    [InlineData("12", false)]
    [InlineData("00123456789012345", true)]
    [InlineData("001234567890123456", false)]
    [InlineData("ring me", false)]
    [InlineData("44+7700900123", false)]
    public void A_number_is_figures_and_what_stands_between_them(string number, bool isOne)
    {
        Assert.Equal(isOne, ContactCheck.FaultsOf(ContactDetails.Empty with { Number = number }).IsEmpty);
    }

    [Theory]
    [InlineData("jo@example.org", true)]
    [InlineData("jo.o'neill+ear@mail.example.org", true)]
    [InlineData("jo", false)]
    [InlineData("@example.org", false)]
    [InlineData("jo@", false)]
    [InlineData("jo@home@example.org", false)]
    [InlineData("jo bloggs@example.org", false)]
    [InlineData("jo@example.org, mo@example.org", false)]
    [InlineData("Jo <jo@example.org>", false)]
    public void An_address_has_one_sign_at_in_its_middle(string email, bool isOne)
    {
        Assert.Equal(isOne, ContactCheck.FaultsOf(ContactDetails.Empty with { Email = email }).IsEmpty);
    }

    /// <summary>Source: RFC 5321, 4.5.3.1.3.</summary>
    [Theory]
    [InlineData(254, true)]
    [InlineData(255, false)]
    public void An_address_is_at_most_254_letters_long(int length, bool isOne)
    {
        var email = new string('a', length - "@example.org".Length) + "@example.org";

        Assert.Equal(isOne, ContactCheck.FaultsOf(ContactDetails.Empty with { Email = email }).IsEmpty);
    }
}
