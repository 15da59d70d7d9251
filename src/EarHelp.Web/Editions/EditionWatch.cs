using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Editions;

/// <summary>Watches the folders of the authors, and takes a changed edition into service once it has been quiet for a moment.</summary>
public sealed partial class EditionWatch(ServedEditions editions, ServiceSettings settings, ILogger<EditionWatch> log)
    : BackgroundService
{
    /// <summary>An editor writes a file in several steps, a copy brings many files: wait until they are done.</summary>
    static readonly TimeSpan Quiet = TimeSpan.FromMilliseconds(400);

    readonly SemaphoreSlim _changed = new(0, 1);
    FileSystemWatcher? _dialogs;
    FileSystemWatcher? _content;

    /// <summary>Watches from here on: before the first edition is read, so that no change falls between reading and watching.</summary>
    public override Task StartAsync(CancellationToken cancellationToken)
    {
        _dialogs = Watch("dialogs");
        _content = Watch("content");
        return base.StartAsync(cancellationToken);
    }

    public override void Dispose()
    {
        _dialogs?.Dispose();
        _content?.Dispose();
        _changed.Dispose();
        base.Dispose();
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        while (true)
        {
            await _changed.WaitAsync(stoppingToken);
            while (await _changed.WaitAsync(Quiet, stoppingToken))
            {
                // Something is still being written.
            }

            await LoadAsync(stoppingToken);
        }
    }

    FileSystemWatcher Watch(string folder)
    {
        var watcher = new FileSystemWatcher(Path.Combine(settings.Root, folder), "*.md") { IncludeSubdirectories = true };
        watcher.Changed += (_, _) => Note();
        watcher.Created += (_, _) => Note();
        watcher.Deleted += (_, _) => Note();
        watcher.Renamed += (_, _) => Note();
        watcher.Error += (_, _) => Note();
        watcher.EnableRaisingEvents = true;
        return watcher;
    }

    void Note()
    {
        try
        {
            _changed.Release();
        }
        catch (SemaphoreFullException)
        {
            // It is noted already.
        }
        catch (ObjectDisposedException)
        {
            // The service has ended.
        }
    }

    async Task LoadAsync(CancellationToken stopping)
    {
        var before = editions.Current?.Edition.Id;
        try
        {
            var problems = await editions.LoadAsync(stopping);
            var listed = string.Join(Environment.NewLine, problems);
            if (!problems.IsEmpty)
                LogRefused(log, problems.Length, Environment.NewLine, listed);
            else if (editions.Published is { } published)
                LogPublished(log, published);
            else if (editions.Current?.Edition.Id is { } now && now != before)
                LogServed(log, now);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException or StoreFailedException)
        {
            LogFailed(log, failure.Message);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The changed edition has {Count} faults and is not served; the last good one stays.{NewLine}{Problems}")]
    static partial void LogRefused(ILogger log, int count, string newLine, string problems);

    [LoggerMessage(Level = LogLevel.Information, Message = "The files were changed; edition {Edition} was published and stays until another is published.")]
    static partial void LogPublished(ILogger log, string edition);

    [LoggerMessage(Level = LogLevel.Information, Message = "Edition {Edition} is served from now on.")]
    static partial void LogServed(ILogger log, string edition);

    [LoggerMessage(Level = LogLevel.Error, Message = "The changed edition could not be read or kept; the last good one stays. {Reason}")]
    static partial void LogFailed(ILogger log, string reason);
}
