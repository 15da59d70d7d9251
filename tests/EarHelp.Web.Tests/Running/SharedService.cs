namespace EarHelp.Web.Tests.Running;

/// <summary>One service for all tests that change nothing but their own conversation.</summary>
public sealed class SharedService : IAsyncLifetime
{
    public RunningService Running { get; private set; } = null!;

    public async Task InitializeAsync() =>
        Running = await RunningService.StartAsync(settings: ["--requests-a-minute", "100000", "--requests-a-second", "100000"]);

    public async Task DisposeAsync() => await Running.DisposeAsync();
}

[CollectionDefinition(Name)]
public sealed class OneService : ICollectionFixture<SharedService>
{
    public const string Name = "one running service";
}
