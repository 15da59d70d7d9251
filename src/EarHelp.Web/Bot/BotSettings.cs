using System.Collections.Immutable;

namespace EarHelp.Web.Bot;

/// <summary>Whom the bot endpoint believes and where it may reply: the section <c>Bot</c> of the settings.</summary>
/// <param name="Issuer">The only issuer of tokens that is believed.</param>
/// <param name="Audience">The bot's own identifier: a token for anyone else is refused.</param>
/// <param name="KeysFile">A JSON Web Key Set with the issuer's public keys; read again when it changes. Null: <paramref name="Metadata"/> says where they are.</param>
/// <param name="Metadata">The issuer's OpenID Connect metadata; null: <paramref name="KeysFile"/>.</param>
/// <param name="ServiceAddresses">Replies go to these addresses and below them, and nowhere else.</param>
/// <param name="ReplyTokenFile">Holds the bearer token that replies carry; null: replies carry none.</param>
public sealed record BotSettings(
    string Issuer,
    string Audience,
    string? KeysFile,
    Uri? Metadata,
    ImmutableArray<Uri> ServiceAddresses,
    string? ReplyTokenFile)
{
    public const string Section = "Bot";

    /// <summary>The settings, or null if the section is empty: then there is no bot endpoint.</summary>
    /// <exception cref="InvalidOperationException">The section is there but does not say enough to be safe.</exception>
    public static BotSettings? Read(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        var section = configuration.GetSection(Section);
        if (!section.Exists())
            return null;
        var keysFile = section["KeysFile"];
        var metadata = section["Metadata"] is { } written ? SafeAddress(written, "Bot:Metadata") : null;
        if (keysFile is null == metadata is null)
            throw new InvalidOperationException("The settings must name either Bot:KeysFile or Bot:Metadata, and not both.");
        var addresses = section.GetSection("ServiceAddresses").Get<string[]>() ?? [];
        if (addresses.Length == 0)
            throw new InvalidOperationException("The settings must list at least one address in Bot:ServiceAddresses.");
        return new BotSettings(
            Needed(section, "Issuer"),
            Needed(section, "Audience"),
            keysFile,
            metadata,
            [.. addresses.Select(a => SafeAddress(a, "Bot:ServiceAddresses"))],
            section["ReplyTokenFile"]);
    }

    static string Needed(IConfigurationSection section, string key) =>
        section[key] is { Length: > 0 } value
            ? value
            : throw new InvalidOperationException($"The settings must name {Section}:{key}.");

    static Uri SafeAddress(string written, string key) =>
        Uri.TryCreate(written, UriKind.Absolute, out var address) && ReplyAddresses.IsSafe(address)
            ? address
            : throw new InvalidOperationException($"{key} has \"{written}\", which is not an https address (http is for this machine only).");
}
