using System.CommandLine;

namespace EarHelp.Cli.Signing;

/// <summary>Who does something about an edition, and why.</summary>
static class SigningOptions
{
    public static Option<string> Name() => Needed("--name", "NAME", "Who does it.");

    public static Option<string> Role() => Needed("--role", "ROLE", "As what, for example \"audiologist\".");

    public static Option<string> Reason() => Needed("--reason", "WORDS", "Why; it is kept for good.");

    static Option<string> Needed(string name, string value, string description)
    {
        var option = new Option<string>(name) { HelpName = value, Description = description, Required = true };
        option.Validators.Add(result =>
        {
            if (string.IsNullOrWhiteSpace(result.GetValueOrDefault<string>()))
                result.AddError($"{name} needs words.");
        });
        return option;
    }
}
