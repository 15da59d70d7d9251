using EarHelp.Cli.Tests.Deploying;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Cli.Tests.Commands;

/// <summary>The command as somebody called it, with what it wrote.</summary>
sealed record Called(int ExitCode, string Out, string Error)
{
    public static readonly DateTimeOffset Now = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    public static Task<Called> WithAsync(params string[] arguments) => WithInputAsync(string.Empty, arguments);

    public static async Task<Called> WithInputAsync(string input, params string[] arguments)
    {
        using var reader = new StringReader(input);
        await using var output = new StringWriter();
        await using var error = new StringWriter();
        var terminal = new Terminal(reader, output, error, Repository.Root);
        var code = await EarHelpCommand.RunAsync(arguments, terminal, new FakeTimeProvider(Now), CancellationToken.None);
        return new Called(code, output.ToString(), error.ToString());
    }
}
