using System.Text.RegularExpressions;
using EarHelp.Cli.Tests.Commands;
using EarHelp.Web.Tests.Running;
using EarHelp.Web.Tests.Staff;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Cli.Tests.Demonstrating;

/// <summary>A data folder that <c>earhelp demo</c> filled, and the service that has it, at the moment at which it was filled.</summary>
public sealed class FilledDemo : IAsyncLifetime
{
    public string Folder { get; } = Path.Combine(Directory.CreateTempSubdirectory("earhelp-demo-").FullName, "new");

    /// <summary>What the command printed.</summary>
    public string Printed { get; private set; } = "";

    public RunningService Running { get; private set; } = null!;

    /// <summary>The administrator of the invented clinic, who is a clinician too, signed in by the printed code.</summary>
    public Colleague Imke { get; private set; } = null!;

    public Colleague Delphine { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        var called = await Called.WithAsync("demo", "--data", Folder);
        Assert.Equal((0, string.Empty), (called.ExitCode, called.Error));
        Printed = called.Out;
        Running = await RunningService.StartAsync(
            configure: services => services.AddSingleton<TimeProvider>(new FakeTimeProvider(Called.Now)),
            settings: ["--data", Folder, "--requests-a-minute", "100000", "--requests-a-second", "100000"]);
        Imke = await JoinedAsync("Imke Sandholt", "imke");
        Delphine = await JoinedAsync("Delphine Arkwright", "delphine");
    }

    public async Task DisposeAsync()
    {
        Imke.Dispose();
        Delphine.Dispose();
        await Running.DisposeAsync();
        Directory.Delete(Path.GetDirectoryName(Folder)!, recursive: true);
    }

    /// <summary>Private links, in the order in which they were printed.</summary>
    public IReadOnlyList<string> Links => [.. Regex.Matches(Printed, "(?m)^  (?<link>/back/[^ ]+)  ").Select(m => m.Groups["link"].Value)];

    public string CodeOf(string name) => Regex.Match(Printed, Regex.Escape(name) + @" \([a-z, ]+\): (?<code>[0-9A-Z ]+)").Groups["code"].Value;

    async Task<Colleague> JoinedAsync(string shownName, string signInName)
    {
        var colleague = new Colleague(Running, signInName);
        await colleague.JoinAsync(CodeOf(shownName));
        return colleague;
    }
}
