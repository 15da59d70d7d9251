using Microsoft.AspNetCore.Mvc;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Builder.Integration.AspNet.Core;
using Microsoft.Bot.Connector.Authentication;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace EarHelp.Web.Bot;

/// <summary>
/// The bot and its channels. The pages reach it through <see cref="InProcessAdapter"/>; other channels come in at <see cref="Path"/>,
/// which is off unless the section <c>Bot</c> of the settings says whom to believe.
/// </summary>
public static class BotChannel
{
    public const string Path = "/api/messages";

    /// <summary>More than any message of a person needs; a longer one is refused unread. Unit: bytes.</summary>
    const int LongestMessageBytes = 64 * 1024;

    public static IServiceCollection Add(IServiceCollection services, IConfiguration configuration)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.AddSingleton<ChannelTurns>();
        services.AddSingleton<FixedEmergency>();
        services.TryAddSingleton<IBot, EarHelpBot>();
        services.AddSingleton(p => new PageChannel(p.GetRequiredService<IBot>()));
        if (BotSettings.Read(configuration) is not { } settings)
            return services;
        services.AddSingleton(settings);
        services.AddSingleton<ISigningKeys>(settings.KeysFile is { } file ? new KeysFromFile(file) : new KeysFromMetadata(settings.Metadata!));
        services.AddSingleton<TokenCheck>();
        services.AddSingleton(new ReplyAddresses(settings.ServiceAddresses));
        services.AddSingleton(p => new ReplyConnectors(p.GetRequiredService<ReplyAddresses>(), settings.ReplyTokenFile));
        services.AddSingleton<BotFrameworkAuthentication, ChannelAuthentication>();
        services.AddSingleton(p => new CloudAdapter(p.GetRequiredService<BotFrameworkAuthentication>()));
        return services;
    }

    public static void Map(WebApplication app)
    {
        ArgumentNullException.ThrowIfNull(app);
        if (app.Services.GetService<CloudAdapter>() is not { } adapter)
            return;
        var bot = app.Services.GetRequiredService<IBot>();
        app.MapPost(Path, context => adapter.ProcessAsync(context.Request, context.Response, bot, context.RequestAborted))
            .WithMetadata(new RequestSizeLimitAttribute(LongestMessageBytes))
            .DisableAntiforgery();
    }
}
