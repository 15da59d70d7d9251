using EarHelp.Clinic.Keeping;
using EarHelp.Conversation.Taking;
using EarHelp.Web.Editions;
using EarHelp.Web.Serving;

namespace EarHelp.Web.AfterVisit;

/// <summary>Erases what was recorded of visits, with the conversations after them, once their days are over.</summary>
public sealed class VisitSweep(IVisitStore store, TurnTaking taking, ServedEditions editions, TimeProvider clock, ILogger<VisitSweep> log)
    : HourlySweep("visits", clock, log)
{
    /// <summary>Without an edition nobody knows how many days it is: nothing is removed then.</summary>
    protected override async ValueTask<int> RemoveAsync(DateTimeOffset now, CancellationToken stopping)
    {
        if (editions.Current?.Edition.Clinic.VisitKeptDays is not (> 0 and var days))
            return 0;
        var swept = await store.SweepVisitsAsync((now - TimeSpan.FromDays(days)).ToUnixTimeMilliseconds(), stopping);
        if (swept > 0)
            taking.ForgetAll();
        return swept;
    }
}
