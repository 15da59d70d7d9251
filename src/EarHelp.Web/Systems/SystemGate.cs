using System.Threading.RateLimiting;
using EarHelp.Clinic.Staff;

namespace EarHelp.Web.Systems;

/// <summary>Lets only a system with a token through (RFC 6750), and no more often than it may ask. The account is looked up each time.</summary>
public sealed class SystemGate(SystemAccess access) : IDisposable
{
    /// <summary>What one system may ask for in a minute (common practice: a record system that looks each second, and a person beside it).</summary>
    const int RequestsAMinute = 120;

    const string Scheme = "Bearer";

    readonly PartitionedRateLimiter<string> _limiter = PartitionedRateLimiter.Create<string, string>(id => RateLimitPartition.GetFixedWindowLimiter(
        id, _ => new FixedWindowRateLimiterOptions { PermitLimit = RequestsAMinute, Window = TimeSpan.FromMinutes(1), QueueLimit = 0 }));

    /// <returns>Null if it was refused, and then that has been said.</returns>
    public async Task<StaffAccount?> OpenAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        var written = context.Request.Headers.Authorization.ToString();
        var token = written.StartsWith(Scheme + " ", StringComparison.OrdinalIgnoreCase) ? written[(Scheme.Length + 1)..].Trim() : null;
        if (token is null || await access.FindAsync(token, context.RequestAborted) is not { } account)
        {
            context.Response.Headers.WWWAuthenticate = token is null ? Scheme : Scheme + " error=\"invalid_token\"";
            await SystemProblem.SendAsync(context, StatusCodes.Status401Unauthorized, token is null ? SystemProblem.NoToken : SystemProblem.WrongToken);
            return null;
        }

        using var lease = _limiter.AttemptAcquire(account.Id);
        if (lease.IsAcquired)
            return account;
        context.Response.Headers.RetryAfter = "60";
        await SystemProblem.SendAsync(context, StatusCodes.Status429TooManyRequests);
        return null;
    }

    public void Dispose() => _limiter.Dispose();
}
