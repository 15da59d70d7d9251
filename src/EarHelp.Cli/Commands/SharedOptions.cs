using System.CommandLine;

namespace EarHelp.Cli.Commands;

/// <summary>Options that mean the same in every command.</summary>
public static class SharedOptions
{
    public static Option<string?> Root() => new("--root")
    {
        Description = "The folder that holds dialogs/ and content/.",
        HelpName = "FOLDER",
    };

    public static Option<string?> Data() => new("--data")
    {
        Description = "The folder in which the service keeps its conversations (by default: data/ in the root folder).",
        HelpName = "FOLDER",
    };

    public static Option<string> Language() => new("--language")
    {
        Description = "A language of content/, by the name of its folder.",
        HelpName = "TAG",
        DefaultValueFactory = _ => "en",
    };
}
