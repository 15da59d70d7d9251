using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;

namespace EarHelp.Web.Tests.Provider;

/// <summary>A provider of OpenID Connect in a process of its own, and a service that trusts it.</summary>
public sealed class ProviderProcess : IAsyncLifetime
{
    public const string Client = "earhelp", Secret = "four grey geese";

    static readonly HttpClient Http = new();

    Process _process = null!;

    public Uri Address { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        _process = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "EarHelp.Servers.Host.dll"), "provider", Client, Secret])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        })!;
        Address = new Uri((await _process.StandardOutput.ReadLineAsync())!);
    }

    public async Task DisposeAsync()
    {
        _process.StandardInput.Close();
        await _process.WaitForExitAsync();
        _process.Dispose();
    }

    /// <summary>Says who signs in next; the subject <c>nobody</c> is refused by the provider.</summary>
    public async Task NextAsync(string subject, string name, params string[] roles)
    {
        using var answer = await Http.PostAsJsonAsync(new Uri(Address, "/next"), new { subject, name, roles });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }
}
