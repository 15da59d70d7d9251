using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Serving;

public sealed class ControlSocketTests
{
    [Fact]
    public async Task The_socket_reloads_the_edition_and_knows_no_page()
    {
        await using var service = await RunningService.StartAsync();
        using var socket = service.Socket();

        var reloaded = await socket.PostAsync(new Uri("/control/reload", UriKind.Relative), null);
        var page = await socket.GetAsync(new Uri("/", UriKind.Relative));

        Assert.Equal("{\"problems\":[]}", await reloaded.Content.ReadAsStringAsync());
        Assert.Equal(404, (int)page.StatusCode);
    }

    [Fact]
    public async Task Nobody_unknown_is_erased_or_replayed()
    {
        await using var service = await RunningService.StartAsync();
        using var socket = service.Socket();

        var erased = await socket.PostAsync(new Uri("/control/erase/nobody", UriKind.Relative), null);
        var replayed = await socket.PostAsync(new Uri("/control/replay/nobody", UriKind.Relative), null);

        Assert.Equal(404, (int)erased.StatusCode);
        Assert.Equal(404, (int)replayed.StatusCode);
    }

    [Fact]
    public async Task What_was_not_understood_is_given_without_names_after_the_person_allowed_it()
    {
        await using var service = await RunningService.StartAsync();
        using var socket = service.Socket();
        using var patient = service.NewPatient();
        var page = await patient.BeginAsync("fizzlewump when Brendan sings");
        Assert.Contains("May our clinicians read", page.Text);
        Assert.DoesNotContain("fizzlewump", await socket.GetStringAsync(new Uri("/control/unanswered", UriKind.Relative)));

        var thanked = await patient.PostAsync("/share", [.. page.FormTo("/share"), KeyValuePair.Create("share", "yes")]);
        var listed = await socket.GetStringAsync(new Uri("/control/unanswered", UriKind.Relative));

        Assert.Contains("Take this back", thanked.Text);
        Assert.Contains("fizzlewump when", listed);
        Assert.DoesNotContain("Brendan", listed);
    }

    [Theory]
    [InlineData("/control/reload")]
    [InlineData("/CONTROL/erase/x")]
    public async Task The_public_door_leads_to_none_of_it(string address)
    {
        await using var service = await RunningService.StartAsync();
        using var patient = service.NewPatient();

        Assert.Equal(404, (int)(await patient.SendAsync(address, [])).StatusCode);
    }

    [Fact]
    public async Task Only_the_owner_may_open_the_socket()
    {
        await using var service = await RunningService.StartAsync();

        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(ControlSocket.PathIn(service.Data)));
    }
}
