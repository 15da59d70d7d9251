using System.Globalization;
using System.Text;
using EarHelp.Conversation.Keeping;
using EarHelp.Storage;
using EarHelp.Storage.Tests.Host;

// Keeps turns of one conversation and says so on standard output only after each is kept. Arguments: folder, turns, and the number of the
// file write before which the process kills itself (0: never).
var turns = int.Parse(args[1], CultureInfo.InvariantCulture);
var options = new StoreOptions { Watch = new KillsItself(int.Parse(args[2], CultureInfo.InvariantCulture)), CheckpointPages = 50 };
LiteTurnStore store;
try
{
    store = LiteTurnStore.Open(args[0], options);
}
catch (StoreFailedException refused)
{
    await Console.Error.WriteLineAsync(refused.Message);
    return 1;
}

using var output = Console.OpenStandardOutput();
var previous = string.Empty;
for (var number = 1; number <= turns; number++)
{
    var record = TurnRecord.Chain("a", number, $"turn {number}", number, "edition", "1", false, Encoding.UTF8.GetBytes(new string('x', 900)), previous);
    await store.AppendAsync(record, [], CancellationToken.None);
    previous = record.Hash;
    output.Write(Encoding.UTF8.GetBytes($"kept {number}\n"));
    output.Flush();
}

if (args.Length > 3)
    await Console.In.ReadLineAsync();
await store.DisposeAsync();
return 0;
