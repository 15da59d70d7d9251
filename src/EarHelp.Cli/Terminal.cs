using System.Text;

namespace EarHelp.Cli;

/// <summary>Where a command reads, writes and complains.</summary>
/// <param name="Out">Results only, so that another program can read them.</param>
/// <param name="Error">Faults, and what is said to the person at the terminal beside the result.</param>
/// <param name="Folder">The folder the command was started in.</param>
public sealed record Terminal(TextReader In, TextWriter Out, TextWriter Error, string Folder)
{
    public static Terminal OfThisProcess()
    {
        var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        return new Terminal(
            new StreamReader(Console.OpenStandardInput(), utf8),
            new StreamWriter(Console.OpenStandardOutput(), utf8) { AutoFlush = true },
            new StreamWriter(Console.OpenStandardError(), utf8) { AutoFlush = true },
            Environment.CurrentDirectory);
    }
}
