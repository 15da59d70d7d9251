using EarHelp.Triage.Cells;

namespace EarHelp.Triage.Tests.Cells;

public sealed class CellParserTests
{
    static readonly CellScope Names = CellScope.Of(["none", "sudden", "not sure", "over a day", "3 days"]);

    [Theory]
    [InlineData("4–90")]
    [InlineData("4-90")]
    [InlineData("4 to 90")]
    [InlineData("4..90")]
    [InlineData("=> 3")]
    [InlineData("<> 3")]
    [InlineData("> > 3")]
    [InlineData("[3..1]")]
    [InlineData("(3..3]")]
    [InlineData("[3..")]
    [InlineData("[3]")]
    [InlineData("3, ")]
    [InlineData("3, -")]
    [InlineData("not 3")]
    [InlineData("not()")]
    [InlineData("not(-)")]
    [InlineData("not(3), 4")]
    [InlineData("4, not(3)")]
    [InlineData("not(3")]
    [InlineData("\"open")]
    [InlineData("\"a\" b")]
    [InlineData("date(\"2026-02-30\")")]
    [InlineData("2026-02-03")]
    [InlineData("< true")]
    [InlineData("1e3")]
    [InlineData("")]
    [InlineData(" \u00A0 ")]
    [InlineData("<")]
    [InlineData("3 days or more")]
    public void Refuses_with_a_fault_and_a_mend(string cell)
    {
        var reading = CellParser.Parse(cell, CellScope.Of([]));

        Assert.Null(reading.Test);
        Assert.NotEmpty(reading.Fault!.Fault);
        Assert.NotEmpty(reading.Fault.Mend);
        Assert.InRange(reading.Fault.Offset, 0, cell.Length);
    }

    [Fact]
    public void A_bare_range_is_refused_with_its_brackets_written_out()
    {
        var fault = CellParser.Parse("4–90", CellScope.Of([])).Fault!;

        Assert.Equal("Write [4..90] if both ends are meant too.", fault.Mend);
    }

    [Fact]
    public void An_unknown_name_is_answered_with_the_nearest_and_all_known()
    {
        var fault = CellParser.Parse("none, suden", Names).Fault!;

        Assert.Equal(CellFaultKind.UnknownValue, fault.Kind);
        Assert.Equal(6, fault.Offset);
        Assert.Equal("Did you mean \"sudden\"? The values are: none, sudden, not sure, over a day, 3 days.", fault.Mend);
    }

    [Theory]
    [InlineData("[4–90]", "[4..90]")]
    [InlineData("[4…90]", "[4..90]")]
    [InlineData("[4...90]", "[4..90]")]
    [InlineData("≤\u00A03", "<= 3")]
    [InlineData("≥3", ">= 3")]
    [InlineData("≠ 3", "!= 3")]
    [InlineData("−5", "-5")]
    [InlineData("–", "-")]
    [InlineData("“a”", "\"a\"")]
    [InlineData("date(“2026-08-01”)", "date(\"2026-08-01\")")]
    public void Reads_what_a_word_processor_made_of_a_cell_where_only_one_meaning_is_possible(string damaged, string plain)
    {
        FeelValue[] values =
        [
            FeelValue.Nothing, new FeelValue.Number(3), new FeelValue.Number(4), new FeelValue.Number(-5), new FeelValue.Number(91),
            new FeelValue.Text("a"), new FeelValue.Day(new DateOnly(2026, 8, 1)),
        ];

        var read = CellParser.Parse(damaged, CellScope.AnyName).Test!;

        var meant = CellParser.Parse(plain, CellScope.AnyName).Test!;
        Assert.All(values, v => Assert.Equal(meant.Evaluate(v), read.Evaluate(v)));
    }

    [Theory]
    [InlineData("not sure", "not sure", true)]
    [InlineData("over  a day", "over a day", true)]
    [InlineData("over\u00A0a day", "over a day", true)]
    [InlineData("3 days", "3 days", true)]
    [InlineData("not(not sure)", "not sure", false)]
    [InlineData("not(not sure, none)", "sudden", true)]
    [InlineData("!= none", "sudden", true)]
    public void Names_may_have_several_words(string cell, string value, bool holds) =>
        Assert.Equal(holds, CellParser.Parse(cell, Names).Test!.Evaluate(new FeelValue.Text(value)));

    [Theory]
    [InlineData("not((3..90])", 3, true)]
    [InlineData("not((3..90])", 4, false)]
    [InlineData("not([3..90))", 90, true)]
    [InlineData("not([3..90), > 95)", 96, false)]
    [InlineData("not([3..90), > 95)", 93, true)]
    [InlineData("]3..90[", 3, false)]
    [InlineData("]3..90[", 89, true)]
    [InlineData("[-3..-1]", -3, true)]
    [InlineData("< 4, > 90", 4, false)]
    [InlineData("< 4, > 90", 91, true)]
    public void Ends_of_ranges_are_in_or_out_as_their_brackets_say(string cell, int value, bool holds) =>
        Assert.Equal(holds, CellParser.Parse(cell, CellScope.AnyName).Test!.Evaluate(new FeelValue.Number(value)));

    // Our own rule for what is missing: only "-" and "null" are true of it; "not" and "!=" speak of a value that is there.
    [Theory]
    [InlineData("-", true)]
    [InlineData("null", true)]
    [InlineData("3", false)]
    [InlineData("!= 3", false)]
    [InlineData("not(3)", false)]
    [InlineData("not(null)", false)]
    [InlineData("< 3", false)]
    [InlineData("[1..3]", false)]
    public void Nothing_meets_only_anything(string cell, bool holds) =>
        Assert.Equal(holds, CellParser.Parse(cell, CellScope.AnyName).Test!.Evaluate(FeelValue.Nothing));

    [Fact]
    public void A_value_of_another_kind_never_meets_a_comparison()
    {
        foreach (var cell in new[] { "< 3", ">= 3", "!= 3", "3", "[1..3]" })
            Assert.False(CellParser.Parse(cell, CellScope.AnyName).Test!.Evaluate(new FeelValue.Text("2")), cell);
        Assert.True(CellParser.Parse("not(3)", CellScope.AnyName).Test!.Evaluate(new FeelValue.Text("3")));
    }

    [Fact]
    public void Never_throws_on_any_text()
    {
        const string Letters = "0123456789.,-[]()<>=!\"\\ abnotdule–“”…≤\u00A0|";
        var chance = new Random(7);

        for (var i = 0; i < 50_000; i++)
        {
            var cell = new string([.. Enumerable.Range(0, chance.Next(12)).Select(_ => Letters[chance.Next(Letters.Length)])]);
            foreach (var scope in new[] { Names, CellScope.AnyName, CellScope.Of([]) })
            {
                var reading = CellParser.Parse(cell, scope);
                Assert.True(reading.Test is null != reading.Fault is null, cell);
                reading.Test?.Evaluate(new FeelValue.Number(3));
            }
        }
    }
}
