using EarHelp.Conversation.Turns;

namespace EarHelp.Conversation.Tests.Telling;

/// <summary>What to call is said for the country where the person is.</summary>
public class EmergencyAbroadTests
{
    [Fact]
    public void Abroad_in_a_country_that_was_not_named_the_fallback_stands_for_the_number()
    {
        var line = LineOf(new Patient().Tell("where now", "abroad").Answer());

        Assert.Contains("112 or 911 from a mobile phone", line, StringComparison.Ordinal);
        Assert.DoesNotContain("999", line, StringComparison.Ordinal);
    }

    [Fact]
    public void Abroad_in_a_named_country_its_own_row_stands_for_the_number_and_the_way_without_hearing()
    {
        var patient = new Patient().Tell("where now", "abroad").Answer().Type("I am on holiday in New Zealand");

        Assert.Equal("In an emergency call 111 in New Zealand.", LineOf(patient));
        Assert.Contains("text 111", Some.Edition.WriterOf(patient.State).Text("emergency line without hearing"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_country_that_was_named_first_counts_once_the_person_says_that_they_are_abroad()
    {
        var patient = new Patient().Tell("where now", "abroad").Type("I am staying in Spain").UntilAsked("where now").Answer();

        Assert.Equal("In an emergency call 112 in Spain.", LineOf(patient));
    }

    [Fact]
    public void Until_the_person_says_where_they_are_both_numbers_stand()
    {
        var patient = new Patient().Type("I am in Spain and have chest pain");

        Assert.Equal("In an emergency call 999 (in Spain: 112).", LineOf(patient));
        Assert.Contains(patient.Alarms, a => a.Signpost == "chest pain");
    }

    [Fact]
    public void Whoever_is_at_home_is_told_the_clinics_own_number()
    {
        Assert.Equal("In an emergency call 999.", LineOf(new Patient().Type("I have been to Spain").UntilAsked("where now").Answer()));
        Assert.Equal("In an emergency call 999.", LineOf(new Patient().Type("I live in the United Kingdom")));
    }

    [Fact]
    public void Whoever_is_abroad_and_names_the_clinics_country_is_not_told_its_number_for_where_they_are()
    {
        var patient = new Patient().Tell("where now", "abroad").Answer().Type("I live in the United Kingdom");

        Assert.Contains("112 or 911", LineOf(patient), StringComparison.Ordinal);
    }

    [Fact]
    public void Whoever_does_not_know_where_they_are_is_told_the_clinics_own_number_too()
    {
        Assert.Equal("In an emergency call 999.", LineOf(new Patient().Tell("where now", null).Answer()));
        Assert.Equal("In an emergency call 999 (in Spain: 112).", LineOf(new Patient().Tell("where now", null).Answer().Type("I am in Spain")));
    }

    [Fact]
    public void Two_countries_in_one_message_leave_it_open_which_it_is()
    {
        var patient = new Patient().Tell("where now", "abroad").Answer().Type("I flew from Spain to Italy");

        Assert.Contains("112 or 911", LineOf(patient), StringComparison.Ordinal);
    }

    [Fact]
    public void The_outcome_of_an_emergency_abroad_says_what_to_call_there()
    {
        var patient = new Patient().Tell("where now", "abroad").Tell("chest pain", "yes").Type("I am in Japan").ToTheEnd();
        var writer = Some.Edition.WriterOf(patient.State);

        var text = Conversation.Telling.PlainText.Of([.. patient.Replies.SelectMany(r => writer.Write(r, patient.Now))], writer);

        Assert.Contains("119 in Japan", text, StringComparison.Ordinal);
        Assert.DoesNotContain("999", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Starting_over_forgets_the_country()
    {
        var patient = new Patient().Tell("where now", "abroad").Type("I am in Japan").Send(new TurnContent.StartOver());

        Assert.Null(patient.State.Country);
    }

    static string LineOf(Patient patient) => Some.Edition.WriterOf(patient.State).Text("emergency line");
}
