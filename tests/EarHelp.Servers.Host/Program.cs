using System.Globalization;
using EarHelp.Servers.Host;

// Starts a PostgreSQL server (or, with "smtp FOLDER PORT", an SMTP server), writes how to reach it, and stops it when standard input ends.
if (args is ["smtp", var folder, var port])
{
    await SmtpHost.RunAsync(folder, int.Parse(port, CultureInfo.InvariantCulture));
    return;
}

await using var server = await PostgresServer.StartAsync();
Console.WriteLine(server.Address);
await Console.In.ReadToEndAsync();
