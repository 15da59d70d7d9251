using System.Text.RegularExpressions;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Words;

/// <summary>The commands a reader meets first are the ones that are run.</summary>
public sealed partial class CommandTests
{
    [Fact]
    public void The_readme_gives_the_service_the_invented_week_and_the_tests_and_no_other_command()
    {
        var blocks = ShellBlock().Matches(Repository.Read("README.md")).SelectMany(m => m.Groups[1].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries));

        Assert.Equal(
            [
                "dotnet run --project src/EarHelp.Web",
                "dotnet run --project src/EarHelp.Cli -- demo --data demo",
                "dotnet run --project src/EarHelp.Web -- --data demo",
                "bash tests/run",
            ],
            blocks);
    }

    [Fact]
    public void Continuous_integration_runs_the_command_of_the_tests()
    {
        Assert.Contains("tests/run\"", Repository.Read(".ci/run"), StringComparison.Ordinal);
    }

    [Fact]
    public void The_readme_opens_with_the_job_in_one_paragraph()
    {
        var paragraphs = Repository.Read("README.md").Split("\n\n");

        Assert.StartsWith("# ", paragraphs[0], StringComparison.Ordinal);
        Assert.True(char.IsLetter(paragraphs[1][0]), "The first paragraph is prose.");
    }

    [Fact]
    public void No_page_of_the_repository_links_to_a_file_that_is_not_there()
    {
        var pages = Repository.Files("src", "*.md").Concat(Repository.Files("tests", "*.md")).Concat(Repository.Files("dialogs", "*.md"))
            .Concat(Repository.Files("deploy", "*.md")).Concat(["README.md", "DEVELOPERS.md", "content/README.md"]);

        var dead = pages.SelectMany(p => LocalLink().Matches(Repository.Read(p)).Select(m => (Page: p, Target: m.Groups[1].Value)))
            .Where(l => !Path.Exists(Path.Combine(Repository.Root, Path.GetDirectoryName(l.Page)!, l.Target)));

        Findings.None(dead);
    }

    [GeneratedRegex(@"```(?:sh|bash|console)\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex ShellBlock();

    [GeneratedRegex(@"\]\((?!https?:|mailto:|tel:|sms:|#)([^)#\s]+)")]
    private static partial Regex LocalLink();
}
