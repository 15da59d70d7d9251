using EarHelp.Clinic.Keeping;
using EarHelp.Web.Editions;
using EarHelp.Web.Serving;

namespace EarHelp.Web.Visits;

/// <summary>Removes requests, and how to reach who asked, once their days are over.</summary>
public sealed class RequestSweep(IRequestStore store, ServedEditions editions, TimeProvider clock, ILogger<RequestSweep> log)
    : HourlySweep("requests for visits", clock, log)
{
    /// <summary>Without an edition nobody knows how many days it is: nothing is removed then.</summary>
    protected override ValueTask<int> RemoveAsync(DateTimeOffset now, CancellationToken stopping) =>
        editions.Current?.Edition.Clinic.RequestKeptDays is > 0 and var days
            ? store.SweepRequestsAsync((now - TimeSpan.FromDays(days)).ToUnixTimeMilliseconds(), stopping)
            : ValueTask.FromResult(0);
}
