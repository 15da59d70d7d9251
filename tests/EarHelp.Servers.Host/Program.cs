using System.Globalization;
using EarHelp.Servers.Host;

// Starts a server, writes how to reach it, and stops it when standard input ends: a sign-in provider or an SMTP server if asked for one, else PostgreSQL.
switch (args)
{
    case ["smtp", var folder, var port]:
        await SmtpHost.RunAsync(folder, int.Parse(port, CultureInfo.InvariantCulture));
        return;
    case ["provider", var client, var secret]:
        await using (var provider = await SignInProvider.StartAsync(client, secret))
            await ServeAsync(provider.Address);
        return;
    default:
        await using (var server = await PostgresServer.StartAsync())
            await ServeAsync(server.Address);
        return;
}

static async Task ServeAsync(string address)
{
    Console.WriteLine(address);
    await Console.In.ReadToEndAsync();
}
