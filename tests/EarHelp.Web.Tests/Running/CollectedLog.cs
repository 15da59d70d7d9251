using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace EarHelp.Web.Tests.Running;

/// <summary>Keeps every line that the service logs, at every level.</summary>
public sealed class CollectedLog : ILoggerProvider
{
    readonly ConcurrentQueue<string> _lines = new();
    readonly ConcurrentDictionary<string, TaskCompletionSource<string>> _awaited = new();

    public string Text => string.Join('\n', _lines);

    /// <summary>The next line that holds a text.</summary>
    public Task<string> LineWith(string text) =>
        _awaited.GetOrAdd(text, _ => new TaskCompletionSource<string>(TaskCreationOptions.RunContinuationsAsynchronously)).Task;

    public ILogger CreateLogger(string categoryName) => new Lines(categoryName, this);

    public void Dispose()
    {
    }

    void Add(string line)
    {
        _lines.Enqueue(line);
        foreach (var (text, found) in _awaited)
        {
            if (line.Contains(text, StringComparison.Ordinal))
                found.TrySetResult(line);
        }
    }

    sealed class Lines(string category, CollectedLog log) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            log.Add($"{category} {logLevel}: {formatter(state, exception)} {exception}");
    }
}
