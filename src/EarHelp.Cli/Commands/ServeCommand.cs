using System.CommandLine;
using EarHelp.Cli.Teaching;
using EarHelp.Conversation.Keeping;
using EarHelp.Web.Serving;

namespace EarHelp.Cli.Commands;

/// <summary><c>earhelp serve</c>: the pages, and the bot endpoint if the settings switch it on.</summary>
public static class ServeCommand
{
    const string Lesson = """
        The address is printed. Every option is a setting of the service; a setting may also be an environment variable.
        Settings of the bot endpoint (off without them): --Bot:Issuer, --Bot:Audience, --Bot:KeysFile or --Bot:Metadata,
        --Bot:ServiceAddresses:0 (:1, ...), --Bot:ReplyTokenFile.

        Try:
          earhelp serve
          earhelp serve --root FOLDER --data FOLDER --urls http://127.0.0.1:5080 --proxies 127.0.0.1
        """;

    static readonly string[] Sections = ["--Bot:", "--Logging:", "--Kestrel:"];

    public static Command Make(Terminal terminal)
    {
        Option<string?>[] settings =
        [
            SharedOptions.Root(),
            SharedOptions.Data(),
            Setting("--store", "DATABASE", "A PostgreSQL database, Host=...;Database=...;Username=...; without it LiteDB in the data folder. Better as EARHELP_STORE."),
            Setting("--metrics-url", "ADDRESS", "An address with a port of its own where metrics are read (Prometheus text format), for example http://127.0.0.1:9464; off by default."),
            Setting("--keys-certificate", "FILE", "A certificate with its private key (PEM) that encrypts the keys of staff's cookies and codes; the same on every node."),
            Setting("--urls", "ADDRESSES", "Where to listen, for example http://127.0.0.1:5080."),
            Setting("--proxies", "ADDRESSES", "Proxies whose forwarded headers are believed; none by default."),
            Setting("--unfinished-days", "DAYS", "How long a conversation without an outcome is kept."),
            Setting("--requests-a-minute", "NUMBER", "At most so many requests from one client."),
            Setting("--requests-a-second", "NUMBER", "At most so many requests from all clients together."),
        ];
        var command = new TaughtCommand("serve", "Serve the pages to patients.", Lesson) { TreatUnmatchedTokensAsErrors = false };
        foreach (var setting in settings)
            command.Add(setting);
        command.SetAction(async parsed =>
        {
            RefuseUnknown(parsed.UnmatchedTokens);
            var arguments = settings
                .Select(s => (s.Name, Value: parsed.GetValue(s)))
                .Where(s => s.Value is not null && s.Name != settings[0].Name)
                .SelectMany(s => new[] { s.Name, s.Value! })
                .Append(settings[0].Name).Append(RootFolder.Find(parsed.GetValue(settings[0]), terminal))
                .Concat(parsed.UnmatchedTokens);
            try
            {
                var service = ServiceHost.Build([.. arguments]);
                await using (service.ConfigureAwait(false))
                    await service.RunAsync().ConfigureAwait(false);
                return ExitCode.Fine;
            }
            catch (Exception wrong) when (wrong is SettingsException or StoreFailedException or IOException or InvalidOperationException)
            {
                throw new WrongUseException(wrong.Message, wrong);
            }
        });
        return command;
    }

    static Option<string?> Setting(string name, string value, string description) => new(name) { HelpName = value, Description = description };

    /// <summary>What is not an option above is a setting of a known section, with its value: a slip of the pen is not passed on in silence.</summary>
    static void RefuseUnknown(IReadOnlyList<string> left)
    {
        for (var i = 0; i < left.Count; i += left[i].Contains('=', StringComparison.Ordinal) ? 1 : 2)
        {
            if (!Sections.Any(s => left[i].StartsWith(s, StringComparison.OrdinalIgnoreCase)))
                throw new WrongUseException($"\"{left[i]}\" is not a setting of the service; \"earhelp serve --help\" lists them.");
        }
    }
}
