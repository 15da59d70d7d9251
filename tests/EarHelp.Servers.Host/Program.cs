using EarHelp.Servers.Host;

// Starts a server, writes how to reach it, and stops it when standard input ends: a sign-in provider if asked for one, else PostgreSQL.
if (args is ["provider", var client, var secret])
{
    await using var provider = await SignInProvider.StartAsync(client, secret);
    Console.WriteLine(provider.Address);
    await Console.In.ReadToEndAsync();
}
else
{
    await using var server = await PostgresServer.StartAsync();
    Console.WriteLine(server.Address);
    await Console.In.ReadToEndAsync();
}
