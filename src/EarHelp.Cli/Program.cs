using EarHelp.Cli;

return await EarHelpCommand.RunAsync(args, Terminal.OfThisProcess(), TimeProvider.System, CancellationToken.None);
