using System.Collections.Frozen;

namespace EarHelp.Architecture.Tests.Directions;

/// <summary>Which project may know which, and where each outside package lives. Arrows point inward only.</summary>
static class Arrows
{
    static readonly string[] All =
    [
        "EarHelp.Triage", "EarHelp.Content", "EarHelp.Understanding", "EarHelp.Proof", "EarHelp.Conversation",
        "EarHelp.Clinic", "EarHelp.Exchange", "EarHelp.Storage",
    ];

    public static FrozenDictionary<string, string[]> MayKnow { get; } = new Dictionary<string, string[]>
    {
        ["EarHelp.Triage"] = [],
        ["EarHelp.Content"] = ["EarHelp.Triage"],
        ["EarHelp.Understanding"] = ["EarHelp.Triage"],
        ["EarHelp.Proof"] = ["EarHelp.Triage"],
        ["EarHelp.Conversation"] = ["EarHelp.Triage", "EarHelp.Understanding"],
        ["EarHelp.Clinic"] = ["EarHelp.Triage", "EarHelp.Conversation"],
        ["EarHelp.Exchange"] = ["EarHelp.Triage", "EarHelp.Conversation", "EarHelp.Clinic"],
        ["EarHelp.Storage"] = ["EarHelp.Conversation", "EarHelp.Clinic"],
        ["EarHelp.Web"] = All,
        ["EarHelp.Cli"] = [.. All, "EarHelp.Web"],
    }.ToFrozenDictionary();

    /// <summary>A package or an assembly by the start of its name, and the only projects that may name it.</summary>
    public static (string Starts, string[] Homes)[] PackageHomes { get; } =
    [
        ("Markdig", ["EarHelp.Content"]),
        ("YamlDotNet", ["EarHelp.Content"]),
        ("Microsoft.Recognizers", ["EarHelp.Understanding"]),
        ("LiteDB", ["EarHelp.Storage"]),
        ("Npgsql", ["EarHelp.Storage"]),
        ("Hl7.Fhir", ["EarHelp.Exchange"]),
        ("Ical.Net", ["EarHelp.Exchange"]),
        ("Microsoft.Extensions.Caching.Memory", ["EarHelp.Exchange"]),
        ("QRCoder", ["EarHelp.Exchange"]),
        ("MailKit", ["EarHelp.Exchange"]),
        ("MimeKit", ["EarHelp.Exchange"]),
        ("System.CommandLine", ["EarHelp.Cli"]),
        ("Microsoft.AspNetCore.Authentication.OpenIdConnect", ["EarHelp.Web"]),
        ("Microsoft.Bot.", ["EarHelp.Web"]),
        ("Microsoft.Identity", ["EarHelp.Web"]),
        ("Microsoft.Rest.", ["EarHelp.Web"]),
        ("Newtonsoft.", ["EarHelp.Web"]),
        ("OpenTelemetry", ["EarHelp.Web"]),
        ("NodaTime", [.. All, "EarHelp.Web", "EarHelp.Cli"]),
    ];

    /// <summary>What comes with the platform: these may be named everywhere, ASP.NET Core only in the faces.</summary>
    public static bool IsPlatform(string assembly, string project) =>
        assembly is "System" or "netstandard" or "mscorlib"
        || (assembly.StartsWith("System.", StringComparison.Ordinal) && !assembly.StartsWith("System.CommandLine", StringComparison.Ordinal))
        || (IsFace(project)
            && (assembly.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal)
                || assembly.StartsWith("Microsoft.Extensions.", StringComparison.Ordinal)
                || assembly.StartsWith("Microsoft.Net.Http", StringComparison.Ordinal)
                || assembly.StartsWith("Microsoft.Win32", StringComparison.Ordinal)))
        || assembly.StartsWith("Microsoft.Win32.Primitives", StringComparison.Ordinal);

    static bool IsFace(string project) => project is "EarHelp.Web" or "EarHelp.Cli";
}
