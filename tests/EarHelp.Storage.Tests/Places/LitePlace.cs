using System.Text;

namespace EarHelp.Storage.Tests.Places;

/// <summary>A folder.</summary>
public sealed class LitePlace : StorePlace
{
    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;

    public override IStore Open() => LiteTurnStore.Open(_folder, new StoreOptions());

    public override Task<bool> HoldsAsync(string text) => Task.FromResult(Directory.EnumerateFiles(_folder, "*.db").Any(f =>
    {
        using var file = new FileStream(f, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var all = new byte[file.Length];
        file.ReadExactly(all);
        return all.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text)) >= 0;
    }));

    public override Task TamperAsync(string chain, int number, byte[]? body)
    {
        using var database = new LiteDB.LiteDatabase(Path.Combine(_folder, "earhelp.db"));
        var records = database.GetCollection(chain);
        var record = records.FindById(number);
        record["b"] = body;
        _ = body is null ? records.Delete(number) : records.Update(record);
        return Task.CompletedTask;
    }

    public override ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, true);
        return ValueTask.CompletedTask;
    }
}
