namespace EarHelp.Web.Serving;

/// <summary>Looks after one kind of thing again and again. Whatever a look meets, the pages are served on and it is looked once more.</summary>
/// <param name="things">What is looked after, in the words of the log.</param>
/// <param name="first">From the start to the first look; zero or longer.</param>
/// <param name="pause">From one look to the next; longer than zero.</param>
public abstract partial class TimedWatch(string things, TimeSpan first, TimeSpan pause, TimeProvider clock, ILogger log) : BackgroundService
{
    readonly SemaphoreSlim _oneAtATime = new(1, 1);

    protected TimeProvider Clock => clock;

    protected ILogger Log => log;

    public override void Dispose()
    {
        _oneAtATime.Dispose();
        base.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>Looks once, and never twice at one time.</summary>
    public async Task LookAsync(CancellationToken cancellation)
    {
        await _oneAtATime.WaitAsync(cancellation);
        try
        {
            await LookAloneAsync(cancellation);
        }
        finally
        {
            _oneAtATime.Release();
        }
    }

    protected abstract Task LookAloneAsync(CancellationToken cancellation);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Delay(first, clock, stoppingToken);
        using var timer = new PeriodicTimer(pause, clock);
        do
        {
            try
            {
                await LookAsync(stoppingToken);
            }
            catch (Exception failure) when (!stoppingToken.IsCancellationRequested)
            {
                LogFailed(log, things, Reason(failure));
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    /// <summary>What the system says of its files holds nothing that a person wrote; of anything else only the kind is told.</summary>
    static string Reason(Exception failure) => failure is IOException or UnauthorizedAccessException ? failure.Message : failure.GetType().Name;

    [LoggerMessage(Level = LogLevel.Error, Message = "A look failed ({Things}: {Reason}); it is tried again.")]
    static partial void LogFailed(ILogger log, string things, string reason);
}
