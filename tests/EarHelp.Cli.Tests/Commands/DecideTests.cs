namespace EarHelp.Cli.Tests.Commands;

public sealed class DecideTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _folder.Delete(recursive: true);

    async Task<Called> DecideAsync(string policy, string input)
    {
        var file = Path.Combine(_folder.FullName, "prices.md");
        await File.WriteAllTextAsync(
            file,
            $"""
            # Prices

            ## How much ({policy})

            | age | member | **price** |
            |---|---|---|
            | < 18 | - | 3 |
            | >= 18 | true | 5 |
            | - | false | 8 |
            """);
        return await Called.WithInputAsync(input, "decide", file);
    }

    [Theory]
    [InlineData("policy F: the first matching row decides", """{"price":3}""")]
    [InlineData("policy C: all matching rows", """[{"price":3},{"price":8}]""")]
    [InlineData("policy C+: the sum of all matching rows", "11")]
    [InlineData("policy C<: the least of all matching rows", "3")]
    [InlineData("policy C>: the greatest of all matching rows", "8")]
    [InlineData("policy C#: how many rows match", "2")]
    public async Task A_table_concludes_by_its_hit_policy(string policy, string conclusion)
    {
        var called = await DecideAsync(policy, """{"age":7,"member":false}""");

        Assert.Equal((0, conclusion, string.Empty), (called.ExitCode, called.Out.Trim(), called.Error));
    }

    [Fact]
    public async Task A_line_that_the_table_cannot_decide_is_named_and_the_others_are_answered()
    {
        var called = await DecideAsync(
            "policy U: at most one row matches",
            """
            {"age":7,"member":true}
            {"age":7,"member":false}
            {"height":7}
            {"age":40,"member":true}
            """);

        Assert.Equal(1, called.ExitCode);
        Assert.Equal(["""{"price":3}""", """{"price":5}"""], called.Out.Trim().Split('\n'));
        Assert.Equal(["line 2", "line 3"], called.Error.Trim().Split('\n').Select(l => l.Split(':')[0]));
    }

    [Fact]
    public async Task A_file_that_is_not_there_is_a_wrong_call()
    {
        var called = await Called.WithAsync("decide", "no such file.md");

        Assert.Equal(2, called.ExitCode);
    }
}
