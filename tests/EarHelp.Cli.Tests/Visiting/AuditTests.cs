using EarHelp.Cli.Tests.Commands;
using EarHelp.Storage;

namespace EarHelp.Cli.Tests.Visiting;

public sealed class AuditTests : IDisposable
{
    readonly DirectoryInfo _data = Directory.CreateTempSubdirectory("earhelp");

    public void Dispose() => _data.Delete(recursive: true);

    [Fact]
    public async Task What_commands_read_and_change_is_listed_also_of_one_conversation_and_damage_is_told()
    {
        var conversation = (await Called.WithInputAsync(":quit\n", "talk", "--data", _data.FullName)).Error.Split('\n')[0].Split(' ')[1].Trim();
        await Called.WithAsync("requests", "--data", _data.FullName);
        await Called.WithAsync("replay", conversation, "--data", _data.FullName);
        await Called.WithAsync("erase", conversation, "--data", _data.FullName);

        var one = await Called.WithAsync("audit", "--conversation", conversation, "--data", _data.FullName);
        Assert.Equal((0, string.Empty), (one.ExitCode, one.Error));
        Assert.Equal($"2026-11-20T09:30:00Z  terminal  ReadConversation  {conversation}\n2026-11-20T09:30:00Z  terminal  Erased  {conversation}\n", one.Out);

        await using (LiteTurnStore.Open(_data.FullName, new StoreOptions()))
        {
        }

        using (var tampered = new LiteDB.LiteDatabase(Path.Combine(_data.FullName, "earhelp.db")))
            tampered.GetCollection("audit").Delete(2);
        var damaged = await Called.WithAsync("audit", "--json", "--data", _data.FullName);
        Assert.Equal(1, damaged.ExitCode);
        Assert.Contains("entry 3 of the audit trail", damaged.Error, StringComparison.Ordinal);
    }
}
