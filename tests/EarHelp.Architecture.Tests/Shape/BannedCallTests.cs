using System.Diagnostics;
using EarHelp.Architecture.Tests.Reading;

namespace EarHelp.Architecture.Tests.Shape;

/// <summary>Time, identifiers and chance come in from outside: the build itself refuses them, which a real build shows.</summary>
public sealed class BannedCallTests
{
    static readonly string[] Banned =
    [
        "System.DateTime.UtcNow.Ticks", "System.DateTime.Now.Ticks", "System.DateTimeOffset.UtcNow.Ticks", "System.Guid.NewGuid()",
        "System.Random.Shared.Next()", "new System.Random().Next()", "System.Globalization.CultureInfo.CurrentCulture.Name",
    ];

    [Fact]
    public async Task A_build_refuses_each_banned_call()
    {
        var folder = Path.Combine(Repository.Root, "artifacts", "banned");
        Directory.CreateDirectory(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "Banned.csproj"), "<Project Sdk=\"Microsoft.NET.Sdk\" />\n");
        var lines = Banned.Select((call, index) => $"    public static object Of{index}() => {call};");
        await File.WriteAllTextAsync(Path.Combine(folder, "Calls.cs"), $"namespace Banned;\n\npublic static class Calls\n{{\n{string.Join('\n', lines)}\n}}\n");

        var report = await BuildAsync(folder);

        for (var line = 5; line < 5 + Banned.Length; line++)
            Assert.Matches($@"Calls\.cs\({line},\d+\): error RS0030", report);
    }

    static async Task<string> BuildAsync(string folder)
    {
        var start = new ProcessStartInfo("dotnet", ["build", folder, "-v", "quiet", "-nologo", "-nodeReuse:false"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var build = Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start");
        var errors = build.StandardError.ReadToEndAsync();
        var report = await build.StandardOutput.ReadToEndAsync();
        await build.WaitForExitAsync();
        Assert.Equal(1, build.ExitCode);
        return report + await errors;
    }
}
