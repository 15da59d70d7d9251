using System.Net.Sockets;
using EarHelp.Web.AfterVisit;
using Microsoft.AspNetCore.Connections.Features;

namespace EarHelp.Web.Serving;

/// <summary>
/// The way in for the command line while the service has the store: a socket in the data folder, which only its owner can open.
/// What comes that way sees these routes and nothing else, and nobody else sees them.
/// </summary>
public static class ControlSocket
{
    public const string FileName = "earhelp.sock";

    /// <summary>Every route of the socket begins so.</summary>
    public const string Prefix = "/control";

    /// <summary>The longest path that a socket may have (the size of sun_path on Linux, less its end).</summary>
    const int LongestPath = 107;

    /// <exception cref="SettingsException">The data folder's path is too long for a socket.</exception>
    public static string PathIn(string data)
    {
        var path = Path.Combine(data, FileName);
        return System.Text.Encoding.UTF8.GetByteCount(path) <= LongestPath
            ? path
            : throw new SettingsException($"The path of the data folder is too long for its socket: {path}. Name a shorter one with --data.");
    }

    internal static void Map(WebApplication app)
    {
        var control = app.Services.GetRequiredService<Control>();
        app.MapPost(Prefix + "/erase/{id}", control.EraseAsync);
        app.MapPost(Prefix + "/replay/{id}", control.ReplayAsync);
        app.MapGet(Prefix + "/affected/{id}/{rule}", control.AffectedAsync);
        app.MapGet(Prefix + "/unanswered", control.UnansweredAsync);
        app.MapGet(Prefix + "/requests", control.RequestsAsync);
        app.MapGet(Prefix + "/audit", control.AuditAsync);
        app.MapGet(Prefix + "/backup", control.BackUpAsync);
        AfterVisitParts.MapControl(app);
        app.MapGet(Prefix + "/records/of/{id}", control.RecordsOfAsync);
        app.MapGet(Prefix + "/records/day/{id}", control.RecordsOfDayAsync);
        app.MapPost(Prefix + "/reload", control.ReloadAsync);
        var editions = app.Services.GetRequiredService<EditionControl>();
        app.MapGet(Prefix + "/ledger", editions.ReadLedgerAsync);
        app.MapPost(Prefix + "/ledger", editions.AppendAsync);
        app.MapGet(Prefix + "/edition", editions.ReadServedAsync);
        app.MapGet(Prefix + "/edition/{id}", editions.FindAsync);
        app.MapPost(Prefix + "/edition/{id}", editions.KeepAsync);
    }

    /// <summary>False for a request that came in by the one door and asks for what is behind the other.</summary>
    internal static bool IsRightDoor(HttpContext context) =>
        IsAsked(context) == context.Request.Path.StartsWithSegments(Prefix, StringComparison.OrdinalIgnoreCase);

    internal static bool IsAsked(HttpContext context) =>
        context.Features.Get<IConnectionSocketFeature>()?.Socket.LocalEndPoint is UnixDomainSocketEndPoint;

    /// <summary>Makes room for the socket: one that was left behind by a process that is gone.</summary>
    internal static void Clear(string data) => File.Delete(PathIn(data));

    internal static void Close(string data)
    {
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(PathIn(data), UnixFileMode.UserRead | UnixFileMode.UserWrite);
    }
}
