namespace EarHelp.Storage.Disk;

/// <summary>
/// The log of LiteDB, written so that a commit is whole or absent after any loss of power. LiteDB's pages carry no checksum
/// and it writes them one by one; here the pages of a commit are gathered, written through with the mark of the commit left
/// out, and only when they are on the device is the one sector that holds the mark written through.
/// </summary>
sealed class CommitLog : SyncedFile
{
    public const int PageBytes = 8192;
    const int LongestRunBytes = 512 * PageBytes;

    /// <summary>Where a page of LiteDB 5 says that it is the last of a commit.</summary>
    const int MarkAt = 18;

    /// <summary>What every disk writes whole or not at all.</summary>
    const int SectorBytes = 512;

    byte[] _run = new byte[32 * PageBytes];
    int _waiting;
    long _start;

    public CommitLog(string path, IDiskWatch? watch)
        : base(path, FileOptions.WriteThrough, watch) => CutAfterTheLastCommit();

    public override long Length => Math.Max(base.Length, _waiting == 0 ? 0 : _start + _waiting);

    public override int Read(Span<byte> buffer)
    {
        if (_waiting > 0 && Position < _start + _waiting && Position + buffer.Length > _start)
            WriteRun();
        return base.Read(buffer);
    }

    public override void Write(ReadOnlySpan<byte> buffer)
    {
        if (buffer.Length != PageBytes)
            throw new InvalidOperationException($"The log takes pages of {PageBytes} bytes, not {buffer.Length}.");
        if (_waiting > 0 && (Position != _start + _waiting || _waiting == LongestRunBytes))
            WriteRun();
        Gather(buffer);
        Position += PageBytes;
        if (buffer[MarkAt] != 0)
            Commit();
    }

    public override void SetLength(long value)
    {
        _waiting = 0;
        base.SetLength(value);
    }

    void Gather(ReadOnlySpan<byte> page)
    {
        if (_waiting == 0)
            _start = Position;
        if (_run.Length < _waiting + PageBytes)
            Array.Resize(ref _run, _run.Length * 2);
        page.CopyTo(_run.AsSpan(_waiting));
        _waiting += PageBytes;
    }

    void Commit()
    {
        var last = _waiting - PageBytes;
        var at = _start + last;
        _run[last + MarkAt] = 0;
        WriteRun();
        _run[last + MarkAt] = 1;
        WriteAt(_run.AsSpan(last, SectorBytes), at);
    }

    void WriteRun()
    {
        WriteAt(_run.AsSpan(0, _waiting), _start);
        _waiting = 0;
    }

    /// <summary>What follows the last mark was never acknowledged and may be torn; LiteDB must not see it.</summary>
    void CutAfterTheLastCommit()
    {
        var page = new byte[PageBytes];
        var keep = 0L;
        for (Position = 0; base.Read(page) == PageBytes;)
        {
            if (page[MarkAt] != 0)
                keep = Position;
        }

        Position = 0;
        if (keep < base.Length)
            base.SetLength(keep);
    }
}
