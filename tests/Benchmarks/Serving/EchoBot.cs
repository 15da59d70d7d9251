using EarHelp.Web.Bot;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Bot.Builder;
using Microsoft.Bot.Builder.Integration.AspNet.Core;
using Microsoft.Bot.Schema;
using Microsoft.Extensions.Logging;

namespace Benchmarks.Serving;

/// <summary>The yardstick: the SDK's own way to a bot that repeats what it hears and counts turns in memory. It checks the same tokens in the same way.</summary>
sealed class EchoBot(ConversationState state) : ActivityHandler
{
    public const string Name = "echo";

    public static async Task ServeAsync(string address, string keysFile)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        var app = builder.Build();
        app.Urls.Add(address);
        var addresses = new ReplyAddresses([new Uri(ChannelToken.ServiceUrl)]);
        using var connectors = new ReplyConnectors(addresses, null);
        var tokens = new TokenCheck(ChannelToken.SettingsOf(keysFile), new KeysFromFile(keysFile), TimeProvider.System);
        var adapter = new CloudAdapter(new ChannelAuthentication(tokens, addresses, connectors));
        var bot = new EchoBot(new ConversationState(new MemoryStorage()));
        app.MapGet("/", () => "echo");
        app.MapPost("/api/messages", (HttpContext context) => adapter.ProcessAsync(context.Request, context.Response, bot, context.RequestAborted));
        await app.RunAsync();
    }

    public override async Task OnTurnAsync(ITurnContext turnContext, CancellationToken cancellationToken = default)
    {
        await base.OnTurnAsync(turnContext, cancellationToken);
        await state.SaveChangesAsync(turnContext, cancellationToken: cancellationToken);
    }

    protected override async Task OnMessageActivityAsync(ITurnContext<IMessageActivity> turnContext, CancellationToken cancellationToken)
    {
        var counted = await state.CreateProperty<Turns>("turns").GetAsync(turnContext, () => new Turns(), cancellationToken);
        counted.Count++;
        await turnContext.SendActivityAsync(MessageFactory.Text($"{counted.Count}: {turnContext.Activity.Text}"), cancellationToken);
    }

    sealed class Turns
    {
        public int Count { get; set; }
    }
}
