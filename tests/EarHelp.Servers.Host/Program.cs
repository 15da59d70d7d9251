using EarHelp.Servers.Host;

// Starts a PostgreSQL server, writes how to reach it, and stops it when standard input ends.
await using var server = await PostgresServer.StartAsync();
Console.WriteLine(server.Address);
await Console.In.ReadToEndAsync();
