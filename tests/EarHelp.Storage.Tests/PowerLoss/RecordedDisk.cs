using EarHelp.Storage.Disk;

namespace EarHelp.Storage.Tests.PowerLoss;

/// <summary>
/// Records every change of the store's files in order, and lays out what a disk may hold when power is lost at any of them: what was
/// synced is there, what was not may be there, and the change under way is there by any of its sectors.
/// </summary>
sealed class RecordedDisk : IDiskWatch
{
    /// <summary>What a disk writes whole or not at all. Common practice.</summary>
    const int SectorBytes = 512;

    readonly Lock _gate = new();
    readonly List<Change> _changes = [];

    public int Count
    {
        get
        {
            lock (_gate)
                return _changes.Count;
        }
    }

    public void Writing(string file, long offset, ReadOnlySpan<byte> bytes, bool durable) =>
        Add(new Change.Write(Path.GetFileName(file), offset, bytes.ToArray(), durable));

    public void Syncing(string file) => Add(new Change.Sync(Path.GetFileName(file)));

    public void Resizing(string file, long length) => Add(new Change.Resize(Path.GetFileName(file), length));

    public void Renaming(string from, string to) => Add(new Change.Rename(Path.GetFileName(from), Path.GetFileName(to)));

    public void Deleting(string file) => Add(new Change.Delete(Path.GetFileName(file)));

    /// <param name="at">The change that was under way.</param>
    /// <param name="chance">Which of the unsynced changes, and which sectors of the last, are on the disk.</param>
    public void LayOut(int at, Random chance, string folder)
    {
        var files = new Dictionary<string, LostFile>(StringComparer.Ordinal);
        foreach (var change in _changes.Take(at))
            Apply(files, change);
        if (at < _changes.Count && _changes[at] is Change.Write torn)
            Of(files, torn.File).Torn = torn;
        Directory.CreateDirectory(folder);
        foreach (var (name, file) in files)
            File.WriteAllBytes(Path.Combine(folder, name), file.AfterPowerLoss(chance));
    }

    static void Apply(Dictionary<string, LostFile> files, Change change)
    {
        switch (change)
        {
            case Change.Rename renamed:
                files[renamed.To] = files[renamed.File];
                files.Remove(renamed.File);
                break;
            case Change.Delete:
                files.Remove(change.File);
                break;
            default:
                Of(files, change.File).Take(change);
                break;
        }
    }

    static LostFile Of(Dictionary<string, LostFile> files, string name) =>
        files.TryGetValue(name, out var file) ? file : files[name] = new LostFile();

    void Add(Change change)
    {
        lock (_gate)
            _changes.Add(change);
    }

    abstract record Change(string File)
    {
        public sealed record Write(string File, long Offset, byte[] Bytes, bool IsDurable) : Change(File);

        public sealed record Sync(string File) : Change(File);

        public sealed record Resize(string File, long Length) : Change(File);

        public sealed record Rename(string File, string To) : Change(File);

        public sealed record Delete(string File) : Change(File);
    }

    sealed class LostFile
    {
        readonly List<Change> _unsynced = [];
        byte[] _synced = [];

        public Change.Write? Torn { get; set; }

        public void Take(Change change)
        {
            if (change is Change.Write { IsDurable: true } written)
                _synced = Written(_synced, written, _ => true);
            else if (change is Change.Sync)
                _synced = All(_ => true, _ => true);
            else
                _unsynced.Add(change);
            if (change is Change.Sync)
                _unsynced.Clear();
        }

        public byte[] AfterPowerLoss(Random chance)
        {
            var likely = chance.Next(3) * 0.5;
            var left = All(_ => chance.NextDouble() < likely, _ => chance.NextDouble() < Math.Max(likely, 0.5));
            return Torn is null ? left : Written(left, Torn, _ => chance.NextDouble() < likely);
        }

        byte[] All(Func<Change, bool> isThere, Func<int, bool> isSectorThere)
        {
            var bytes = _synced;
            foreach (var change in _unsynced.Where(isThere))
                bytes = change is Change.Resize resized ? Resized(bytes, resized.Length) : Written(bytes, (Change.Write)change, isSectorThere);
            return bytes;
        }

        static byte[] Written(byte[] to, Change.Write write, Func<int, bool> isSectorThere)
        {
            for (var from = 0; from < write.Bytes.Length; from += SectorBytes)
            {
                if (!isSectorThere(from))
                    continue;
                var length = Math.Min(SectorBytes, write.Bytes.Length - from);
                to = to.Length < write.Offset + from + length ? Resized(to, write.Offset + from + length) : to;
                write.Bytes.AsSpan(from, length).CopyTo(to.AsSpan((int)write.Offset + from));
            }

            return to;
        }

        static byte[] Resized(byte[] bytes, long length)
        {
            var resized = new byte[length];
            bytes.AsSpan(0, (int)Math.Min(bytes.Length, length)).CopyTo(resized);
            return resized;
        }
    }
}
