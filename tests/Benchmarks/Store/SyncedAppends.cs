using System.Threading.Channels;
using Microsoft.Win32.SafeHandles;

namespace Benchmarks.Store;

/// <summary>The least that a durable append can cost: the bytes of all who wait, one write, one sync, no index, no reading.</summary>
sealed class SyncedAppends : IAsyncDisposable
{
    const int HeaderBytes = 200;

    readonly SafeFileHandle _file;
    readonly Channel<(int Bytes, TaskCompletionSource Done)> _waiting =
        Channel.CreateUnbounded<(int, TaskCompletionSource)>(new() { SingleReader = true });

    readonly Task _writing;

    public SyncedAppends(string folder)
    {
        _file = File.OpenHandle(Path.Combine(folder, "plain"), FileMode.Create, FileAccess.Write);
        _writing = Task.Factory.StartNew(WriteAsync, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default).Unwrap();
    }

    public async ValueTask AppendAsync(TurnOfLoad turn)
    {
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        _waiting.Writer.TryWrite((turn.Record.Body.Length + HeaderBytes, done));
        await done.Task;
    }

    public async ValueTask DisposeAsync()
    {
        _waiting.Writer.Complete();
        await _writing;
        _file.Dispose();
    }

    async Task WriteAsync()
    {
        var buffer = new byte[1_000_000];
        var group = new List<TaskCompletionSource>();
        var at = 0L;
        while (await _waiting.Reader.WaitToReadAsync())
        {
            var length = 0;
            while (_waiting.Reader.TryRead(out var one))
            {
                length += one.Bytes;
                group.Add(one.Done);
            }

            RandomAccess.Write(_file, buffer.AsSpan(0, length), at);
            RandomAccess.FlushToDisk(_file);
            at += length;
            foreach (var done in group)
                done.SetResult();
            group.Clear();
        }
    }
}
