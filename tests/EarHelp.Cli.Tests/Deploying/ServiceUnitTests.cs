namespace EarHelp.Cli.Tests.Deploying;

public sealed class ServiceUnitTests
{
    static string Unit => File.ReadAllText(Path.Combine(Repository.Root, "deploy", "earhelp.service"));

    [Fact]
    public async Task Systemd_finds_nothing_to_say_about_the_unit()
    {
        // The program is not installed here, so the copy starts one that is.
        var folder = Directory.CreateTempSubdirectory("unit");
        var copy = Path.Combine(folder.FullName, "earhelp.service");
        await File.WriteAllTextAsync(copy, Unit.Replace("/opt/earhelp/earhelp ", "/bin/true ", StringComparison.Ordinal));

        var verified = await Ran.ToTheEndAsync("systemd-analyze", "verify", copy);
        folder.Delete(recursive: true);

        Assert.Equal((0, string.Empty, string.Empty), (verified.ExitCode, verified.Out, verified.Error));
    }

    [Theory]
    [InlineData("User=earhelp")]
    [InlineData("StateDirectory=earhelp")]
    [InlineData("ProtectSystem=strict")]
    [InlineData("NoNewPrivileges=yes")]
    [InlineData("CapabilityBoundingSet=")]
    [InlineData("RestrictAddressFamilies=AF_INET AF_INET6 AF_UNIX")]
    public void The_unit_gives_the_program_only_what_it_needs(string line) => Assert.Contains(line, Unit.Split('\n'));
}
