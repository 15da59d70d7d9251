using System.CommandLine;

namespace EarHelp.Cli.Teaching;

/// <summary>A command whose help goes on after the list of options: what comes out, and examples to copy.</summary>
sealed class TaughtCommand(string name, string description, string lesson) : Command(name, description)
{
    public string Lesson => lesson;
}
