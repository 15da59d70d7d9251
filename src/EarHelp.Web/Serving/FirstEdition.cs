using EarHelp.Web.Editions;

namespace EarHelp.Web.Serving;

/// <summary>
/// Takes the first edition into service before any request is taken. If it has a fault, every fault is printed and the emergency
/// page is served until the files are mended.
/// </summary>
public sealed partial class FirstEdition(ServedEditions editions, ILogger<FirstEdition> log) : IHostedService
{
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        var problems = await editions.StartAsync(cancellationToken);
        var listed = string.Join(Environment.NewLine, problems);
        if (!problems.IsEmpty)
            LogRefused(log, problems.Length, Environment.NewLine, listed);
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    [LoggerMessage(
        Level = LogLevel.Critical,
        Message = "The edition has {Count} faults and is not served; every page is the emergency page until they are mended.{NewLine}{Problems}")]
    static partial void LogRefused(ILogger log, int count, string newLine, string problems);
}
