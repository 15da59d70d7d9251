using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Taking;

namespace EarHelp.Web.Serving;

/// <summary>Removes conversations that were never finished.</summary>
public sealed class UnfinishedSweep(ITurnStore store, TurnTaking taking, ServiceSettings settings, TimeProvider clock, ILogger<UnfinishedSweep> log)
    : HourlySweep("unfinished conversations", clock, log)
{
    protected override async ValueTask<int> RemoveAsync(DateTimeOffset now, CancellationToken stopping)
    {
        var removed = await store.SweepUnfinishedAsync((now - settings.UnfinishedFor).ToUnixTimeMilliseconds(), stopping);
        if (removed > 0)
            taking.ForgetAll();
        return removed;
    }
}
