using EarHelp.Web.Staff;
using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Identity;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;

namespace EarHelp.Web.Provider;

/// <summary>Puts the sign-in at the clinic's own provider together; nothing of it is there unless a provider is named.</summary>
static class ProviderParts
{
    const string Address = StaffParts.Prefix + "/provider";

    internal static void Add(IServiceCollection services, IConfiguration configuration)
    {
        if (ProviderSettings.Read(configuration) is not { } settings)
            return;
        services.AddSingleton(settings);
        services.AddSingleton<ProviderAccounts>();
        services.AddScoped<ProviderPages>();
        services.AddAuthentication().AddOpenIdConnect(ProviderPages.Scheme, options => Configure(options, settings));
    }

    internal static void Map(WebApplication app)
    {
        if (app.Services.GetService<ProviderSettings>() is null)
            return;
        app.MapGet(Address, context => PagesOf(context).BeginAsync(context));
        app.MapGet(Address + "/back", context => PagesOf(context).BackAsync(context));
    }

    static void Configure(OpenIdConnectOptions options, ProviderSettings settings)
    {
        (options.Authority, options.ClientId, options.ClientSecret) = (settings.Authority.ToString(), settings.Client, settings.Secret);
        options.RequireHttpsMetadata = !settings.Authority.IsLoopback;
        options.ResponseType = OpenIdConnectResponseType.Code;
        options.ResponseMode = OpenIdConnectResponseMode.Query;
        options.CallbackPath = Address + "/back";
        options.SignInScheme = IdentityConstants.ExternalScheme;
        options.MapInboundClaims = false;
        foreach (var cookie in (CookieBuilder[])[options.CorrelationCookie, options.NonceCookie])
        {
            // The provider's page sends the browser back: a strict cookie would not come along.
            cookie.SameSite = SameSiteMode.Lax;
            cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        }

        options.Events = new OpenIdConnectEvents
        {
            OnTicketReceived = received => PagesOf(received.HttpContext).TakeAsync(received),
            OnRemoteFailure = failure => PagesOf(failure.HttpContext).RefuseAsync(failure),
        };
    }

    static ProviderPages PagesOf(HttpContext context) => context.RequestServices.GetRequiredService<ProviderPages>();
}
