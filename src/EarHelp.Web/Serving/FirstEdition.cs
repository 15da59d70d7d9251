using EarHelp.Web.Editions;

namespace EarHelp.Web.Serving;

/// <summary>
/// Takes the first edition into service before any request is taken. If it has a fault, every fault is printed and the emergency
/// page is served until the files are mended.
/// </summary>
public sealed partial class FirstEdition(ServedEditions editions, LedgerInForce ledger, ILogger<FirstEdition> log) : IHostedService
{
    public async Task StartAsync(CancellationToken cancellationToken)
    {
        var problems = await editions.StartAsync(cancellationToken);
        var listed = string.Join(Environment.NewLine, problems);
        if (!problems.IsEmpty)
            LogRefused(log, problems.Length, Environment.NewLine, listed);
        if (ledger.Damage is { } damage)
            LogDamaged(log, damage);
        if (editions.Published is { } published && editions.Current is null)
            LogGone(log, published);
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    [LoggerMessage(
        Level = LogLevel.Critical,
        Message = "The edition has {Count} faults and is not served; every page is the emergency page until they are mended.{NewLine}{Problems}")]
    static partial void LogRefused(ILogger log, int count, string newLine, string problems);

    [LoggerMessage(
        Level = LogLevel.Critical,
        Message = "{Damage} Until then nobody knows what was signed, published or withdrawn: no question is asked and no outcome is told; only the emergency texts and the ways to reach the clinic are shown.")]
    static partial void LogDamaged(ILogger log, string damage);

    [LoggerMessage(
        Level = LogLevel.Critical,
        Message = "Edition {Edition} was published, and it is not in the archive of the data folder or cannot be compiled; no other one is served in its place, and every page is the emergency page. Restore the last verified backup, or put the files of that edition beside the program, or publish a signed edition that is kept (earhelp publish EDITION), or follow the files (earhelp publish --files).")]
    static partial void LogGone(ILogger log, string edition);
}
