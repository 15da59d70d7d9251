using EarHelp.Conversation.Keeping;
using EarHelp.Web.Serving;

try
{
    await using var app = ServiceHost.Build(args);
    await app.RunAsync();
    return 0;
}
catch (Exception fault) when (fault is SettingsException or StoreFailedException or IOException)
{
    await Console.Error.WriteLineAsync(fault.Message);
    return 1;
}
