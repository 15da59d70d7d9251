using System.Text.RegularExpressions;
using EarHelp.Cli.Tests.Commands;

namespace EarHelp.Cli.Tests.Signing;

/// <summary>The command and the service as two processes, over the socket in the data folder.</summary>
public sealed partial class SignAndPublishTests : IDisposable
{
    const string Demonstration = "Demonstration, not for real patients";

    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");
    readonly CopiedEdition _first = new();
    readonly CopiedEdition _second = new CopiedEdition()
        .With("dialogs/ear/4-rules-within-hours.md", "| RF-010.1 | - | - | yes | - | - | yes | >= 65 |", "| RF-010.1 | - | - | yes | - | - | yes | >= 70 |")
        .With("content/en/interface.md", "| service name | EarHelp |", "| service name | EarHelp Second |");

    public void Dispose()
    {
        _first.Dispose();
        _second.Dispose();
        _data.Delete(recursive: true);
    }

    [Fact]
    public async Task Two_people_sign_what_they_saw_and_a_signed_edition_is_published_and_taken_back()
    {
        string first;
        string second;
        await using (var service = await ServingProcess.StartAsync(_first.Root, _data.FullName))
        {
            Assert.Contains(Demonstration, await service.FirstPageAsync(), StringComparison.Ordinal);
            Assert.Equal(1, (await SignAsync(_first, "approver", "Bo Reader")).ExitCode);
            first = EditionIn(await SignAsync(_first, "author", "Al Writer"));
            Assert.Equal(1, (await PublishAsync(first)).ExitCode);
            Assert.Contains("two people", (await SignAsync(_first, "approver", " al  WRITER ")).Error, StringComparison.Ordinal);
            Assert.Contains(Demonstration, await service.FirstPageAsync(), StringComparison.Ordinal);

            Assert.Contains("so by both", (await SignAsync(_first, "approver", "Bo Reader")).Out, StringComparison.Ordinal);

            Assert.DoesNotContain(Demonstration, await service.FirstPageAsync(), StringComparison.Ordinal);
            var unconfirmed = await SignAsync(_second, "author", "Al Writer");
            Assert.Equal(1, unconfirmed.ExitCode);
            Assert.StartsWith($"Compared with edition {first}, which the running service serves now.", unconfirmed.Out, StringComparison.Ordinal);
            string[] decreases = [.. Confirmations().Matches(unconfirmed.Error).Select(m => m.Groups[1].Value)];
            Assert.NotEmpty(decreases);
            Assert.Contains("D-no-such", (await SignAsync(_second, "author", "Al Writer", [.. decreases, "D-no-such"])).Error, StringComparison.Ordinal);
            second = EditionIn(await SignAsync(_second, "author", "Al Writer", decreases));
            Assert.Equal(1, (await SignAsync(_second, "approver", "Bo Reader")).ExitCode);
            EditionIn(await SignAsync(_second, "approver", "Bo Reader", decreases));

            Assert.Equal(0, (await PublishAsync(second)).ExitCode);
            Assert.Contains("EarHelp Second", await service.FirstPageAsync(), StringComparison.Ordinal);
        }

        await using (var again = await ServingProcess.StartAsync(_first.Root, _data.FullName))
        {
            Assert.Contains("EarHelp Second", await again.FirstPageAsync(), StringComparison.Ordinal);

            Assert.Equal(0, (await PublishAsync(first)).ExitCode);

            var page = await again.FirstPageAsync();
            Assert.DoesNotContain("EarHelp Second", page, StringComparison.Ordinal);
            Assert.DoesNotContain(Demonstration, page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Without_a_service_a_signed_edition_is_published_for_its_next_start_and_the_files_can_be_followed_again()
    {
        await using (await ServingProcess.StartAsync(_first.Root, _data.FullName))
        {
            // The data folder is made by a service.
        }

        var author = await SignAsync(_second, "author", "Al Writer");
        var second = EditionIn(author);
        Assert.Contains("no service is running", author.Out, StringComparison.Ordinal);
        EditionIn(await SignAsync(_second, "approver", "Bo Reader"));

        Assert.Contains("served when the service starts", (await PublishAsync(second)).Out, StringComparison.Ordinal);

        await using (var service = await ServingProcess.StartAsync(_first.Root, _data.FullName))
            Assert.Contains("EarHelp Second", await service.FirstPageAsync(), StringComparison.Ordinal);
        Assert.Equal(2, (await PublishAsync(second, "--files")).ExitCode);
        Assert.Equal(0, (await PublishAsync("--files")).ExitCode);
        Assert.Equal(1, (await PublishAsync("--files")).ExitCode);
        await using var again = await ServingProcess.StartAsync(_first.Root, _data.FullName);
        var page = await again.FirstPageAsync();
        Assert.DoesNotContain("EarHelp Second", page, StringComparison.Ordinal);
        Assert.Contains(Demonstration, page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2020-01-01")]
    [InlineData("next year")]
    public async Task A_date_that_is_over_or_none_is_a_wrong_call(string expires)
    {
        var called = await Called.WithAsync("sign", _first.Root, "--data", _data.FullName, "--as", "author", "--name", "Al", "--role", "author", "--reason", "new", "--expires", expires);

        Assert.Equal(2, called.ExitCode);
    }

    static string EditionIn(Called called)
    {
        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        return SignedEdition().Match(called.Out).Groups[1].Value;
    }

    Task<Called> SignAsync(CopiedEdition edition, string part, string name, params string[] confirmed) => Called.WithAsync(
        ["sign", edition.Root, "--data", _data.FullName, "--as", part, "--name", name, "--role", "ear surgeon", "--reason", "read and agreed", "--expires", "2999-01-01", .. confirmed.SelectMany(c => new[] { "--confirm", c })]);

    Task<Called> PublishAsync(params string[] what) =>
        Called.WithAsync(["publish", .. what, "--data", _data.FullName, "--name", "Al Writer", "--role", "author", "--reason", "released"]);

    [GeneratedRegex("--confirm (D-[^ \n]+)")]
    private static partial Regex Confirmations();

    [GeneratedRegex("Edition ([0-9a-f]{64}) is signed")]
    private static partial Regex SignedEdition();
}
