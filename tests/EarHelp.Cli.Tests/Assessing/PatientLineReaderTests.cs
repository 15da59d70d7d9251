using EarHelp.Cli.Assessing;
using EarHelp.Triage.Facts;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Cli.Tests.Assessing;

public sealed class PatientLineReaderTests
{
    static readonly PatientLineReader Reader =
        new(SomeDialog.Make(), SomeDialog.Clinic().Zone, new FakeTimeProvider(AssessLines.Now));

    static ValueSet Read(string facts)
    {
        var read = Reader.Read($$$"""{"at":"2026-11-20T09:30","facts":{{{facts}}}}""");
        Assert.Empty(read.Faults);
        return Assert.Single(read.Patient!.Given).MayBe;
    }

    [Theory]
    [InlineData("""{"noise":"humming"}""", "{1}")]
    [InlineData("""{"noise":["roaring","none"]}""", "{0, 2}")]
    [InlineData("""{"noise":"unsure"}""", "{0..2}")]
    [InlineData("""{"faint":"yes"}""", "{0}")]
    [InlineData("""{"faint":true}""", "{0}")]
    [InlineData("""{"faint":false}""", "{1}")]
    [InlineData("""{"age":52}""", "{52}")]
    [InlineData("""{"age":{"from":3,"to":9}}""", "{3..9}")]
    [InlineData("""{"age":[1,2,7]}""", "{1..2, 7}")]
    [InlineData("""{"temperature":34.5}""", "{5}")]
    [InlineData("""{"noise began on":"2026-11-20"}""", "{0}")]
    [InlineData("""{"noise began on":"2026-11-17"}""", "{3}")]
    [InlineData("""{"noise began on":"2026-11-17T23:59"}""", "{3}")]
    [InlineData("""{"noise began on":["2026-11-17","2026-11-10"]}""", "{3, 10}")]
    [InlineData("""{"noise began on":{"from":"2026-11-10","to":"2026-11-17"}}""", "{3..10}")]
    [InlineData("""{"days since noise":3}""", "{3}")]
    [InlineData("""{"days since noise":{"from":3,"to":5}}""", "{3..5}")]
    public void Every_way_of_writing_a_value_is_read(string facts, string members) => Assert.Equal(members, Read(facts).ToString());

    [Theory]
    [InlineData("""{"pulse":70}""", "\"pulse\" is not a fact of this edition; \"earhelp facts\" lists them.")]
    [InlineData("""{"noise":"whistling"}""", "\"noise\": \"whistling\" is not one of its values: roaring, humming, none.")]
    [InlineData("""{"noise":true}""", "\"noise\": \"true\" is not one of its values: roaring, humming, none.")]
    [InlineData("""{"noise":[]}""", "\"noise\": an empty list says that nothing can be true.")]
    [InlineData("""{"noise":{"from":"roaring","to":"none"}}""", "\"noise\": a range is for numbers and dates; list the values that may be true.")]
    [InlineData("""{"age":130}""", "\"age\": 130 is not a number from 0 to 120 years, in steps of 1.")]
    [InlineData("""{"age":1.5}""", "\"age\": 1.5 is not a number from 0 to 120 years, in steps of 1.")]
    [InlineData("""{"age":"52"}""", "\"age\": \"52\" is not a number from 0 to 120 years, in steps of 1.")]
    [InlineData("""{"age":{"from":9,"to":3}}""", "\"age\": the range from 9 to 3 holds nothing.")]
    [InlineData("""{"age":{"from":9}}""", "\"age\": a range has \"from\" and \"to\" and nothing else.")]
    [InlineData("""{"noise began on":"20.11.2026"}""", "\"noise began on\": \"20.11.2026\" is not a date such as \"2026-11-20\" or a moment such as \"2026-11-20T08:30\".")]
    [InlineData("""{"noise began on":"2026-11-21"}""", "\"noise began on\": it lies after the moment of assessing.")]
    [InlineData("""{"noise began on":"2020-01-01"}""", "\"noise began on\": it is 2515 days ago, and days since noise goes from 0 to 400.")]
    [InlineData("""{"noise began on":"2026-11-17","days since noise":3}""", "\"days since noise\" is given twice, as a date and as the number counted from it.")]
    [InlineData("""{"age":{"left":3}}""", "\"age\": it is about the person, not about an ear.")]
    public void A_value_that_cannot_be_is_named(string facts, string fault)
    {
        var read = Reader.Read($$$"""{"at":"2026-11-20T09:30","facts":{{{facts}}}}""");

        Assert.Equal(fault, Assert.Single(read.Faults));
    }

    [Theory]
    [InlineData("nonsense")]
    [InlineData("[1]")]
    [InlineData("""{"facts":{"age":1,"age":2}}""")]
    [InlineData("""{"facts":{},"at":"tomorrow"}""")]
    [InlineData("""{"facts":{},"patient":1}""")]
    [InlineData("""{"id":1}""")]
    public void A_line_of_another_form_is_a_fault(string line) => Assert.NotEmpty(Reader.Read(line).Faults);

    [Fact]
    public void All_faults_of_a_line_are_collected()
    {
        var read = Reader.Read("""{"at":"x","facts":{"pulse":1,"age":"old"}}""");

        Assert.Equal(3, read.Faults.Length);
    }

    [Theory]
    [InlineData("2026-11-20T09:30", "2026-11-20T09:30:00Z")]
    [InlineData("2026-07-20T09:30", "2026-07-20T08:30:00Z")]
    [InlineData("2026-07-20T09:30:00Z", "2026-07-20T09:30:00Z")]
    [InlineData("2026-07-20T09:30+02:00", "2026-07-20T07:30:00Z")]
    public void A_moment_without_an_offset_is_a_time_at_the_clinic(string at, string instant)
    {
        var read = Reader.Read($$$"""{"at":"{{{at}}}","facts":{}}""");

        Assert.Equal(instant, read.Patient!.At.ToString());
    }

    [Fact]
    public void Without_a_moment_it_is_now() =>
        Assert.Equal(AssessLines.Now, Reader.Read("""{"facts":{}}""").Patient!.At.ToDateTimeOffset());
}
