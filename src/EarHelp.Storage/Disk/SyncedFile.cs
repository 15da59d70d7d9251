using Microsoft.Win32.SafeHandles;

namespace EarHelp.Storage.Disk;

/// <summary>A database file whose every flush reaches the device, and whose every change of length does too.</summary>
class SyncedFile : Stream
{
    readonly SafeFileHandle _handle;
    readonly IDiskWatch? _watch;
    readonly bool _durable;
    long _length;

    public SyncedFile(string path, FileOptions options, IDiskWatch? watch)
    {
        Path = path;
        _watch = watch;
        _durable = options.HasFlag(FileOptions.WriteThrough);
        _handle = File.OpenHandle(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read, options);
        _length = RandomAccess.GetLength(_handle);
    }

    public string Path { get; }

    public override bool CanRead => true;

    public override bool CanSeek => true;

    public override bool CanWrite => true;

    public override long Length => _length;

    public override long Position { get; set; }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        var read = RandomAccess.Read(_handle, buffer, Position);
        Position += read;
        return read;
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        WriteAt(buffer, Position);
        Position += buffer.Length;
    }

    public override void Flush()
    {
        _watch?.Syncing(Path);
        RandomAccess.FlushToDisk(_handle);
    }

    public override void SetLength(long value)
    {
        _watch?.Resizing(Path, value);
        RandomAccess.SetLength(_handle, value);
        _length = value;
        Flush();
    }

    public override long Seek(long offset, SeekOrigin origin) => Position = origin switch
    {
        SeekOrigin.Begin => offset,
        SeekOrigin.Current => Position + offset,
        _ => Length + offset,
    };

    protected void WriteAt(ReadOnlySpan<byte> bytes, long offset)
    {
        _watch?.Writing(Path, offset, bytes, _durable);
        RandomAccess.Write(_handle, bytes, offset);
        _length = Math.Max(_length, offset + bytes.Length);
    }

    protected override void Dispose(bool disposing)
    {
        _handle.Dispose();
        base.Dispose(disposing);
    }
}
