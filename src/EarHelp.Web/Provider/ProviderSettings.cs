using System.Collections.Frozen;
using EarHelp.Clinic.Staff;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Provider;

/// <summary>The clinic's own sign-in (OpenID Connect), if it is named; without it staff sign in here only.</summary>
/// <param name="Authority">The issuer's address, under which its discovery document is found. Over https, or on this machine.</param>
/// <param name="RoleClaim">The claim that lists what a person is at the clinic.</param>
/// <param name="Roles">By a value of that claim: the role here. Who has none of them does not get in.</param>
public sealed record ProviderSettings(Uri Authority, string Client, string Secret, string RoleClaim, FrozenDictionary<string, StaffRole> Roles)
{
    const string Provider = "sign-in-provider", ClientName = "sign-in-client", SecretFile = "sign-in-secret-file", Claim = "sign-in-role-claim", RolesName = "sign-in-roles";

    const string DefaultClaim = "roles";

    /// <summary>Null: no provider is named.</summary>
    /// <exception cref="SettingsException">A setting is missing or cannot be used; says which and why.</exception>
    public static ProviderSettings? Read(IConfiguration configuration)
    {
        ArgumentNullException.ThrowIfNull(configuration);
        if (configuration[Provider] is not { Length: > 0 } written)
        {
            var stray = ((string[])[ClientName, SecretFile, Claim, RolesName]).FirstOrDefault(n => configuration[n] is { Length: > 0 });
            return stray is null ? null : throw new SettingsException($"--{stray} is set, and no provider. Name it with --{Provider}, or leave --{stray} out.");
        }

        if (!Uri.TryCreate(written, UriKind.Absolute, out var authority) || (authority.Scheme != Uri.UriSchemeHttps && !(authority.Scheme == Uri.UriSchemeHttp && authority.IsLoopback)))
            throw new SettingsException($"\"{written}\" cannot be used for --{Provider}: write an address that begins with https://.");
        return new ProviderSettings(
            authority, Needed(configuration, ClientName), ReadSecret(Needed(configuration, SecretFile)), configuration[Claim] is { Length: > 0 } claim ? claim : DefaultClaim,
            ReadRoles(Needed(configuration, RolesName)));
    }

    static string Needed(IConfiguration configuration, string name) =>
        configuration[name] is { Length: > 0 } written ? written : throw new SettingsException($"--{Provider} is set, so --{name} is needed, too.");

    static string ReadSecret(string file)
    {
        try
        {
            return File.ReadAllText(file).Trim() is { Length: > 0 } secret ? secret : throw new SettingsException($"The file \"{file}\" of --{SecretFile} is empty.");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new SettingsException($"The file \"{file}\" of --{SecretFile} cannot be read: {fault.Message}");
        }
    }

    /// <summary>Written as <c>desk=Front desk, clinician=Doctors</c>.</summary>
    static FrozenDictionary<string, StaffRole> ReadRoles(string written)
    {
        var known = Enum.GetValues<StaffRole>().Where(r => r != StaffRole.System).ToDictionary(r => r.ToString().ToLowerInvariant());
        var roles = new Dictionary<string, StaffRole>(StringComparer.Ordinal);
        foreach (var part in written.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (part.Split('=', 2, StringSplitOptions.TrimEntries) is not [var name, { Length: > 0 } value] || !known.TryGetValue(name, out var role))
                throw new SettingsException($"\"{part}\" in --{RolesName} cannot be used: write a role, =, and its name at the provider. Roles: {string.Join(", ", known.Keys)}.");
            if (!roles.TryAdd(value, role))
                throw new SettingsException($"\"{value}\" stands twice in --{RolesName}: one name at the provider is one role here.");
        }

        return roles.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
