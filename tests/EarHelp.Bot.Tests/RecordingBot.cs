using Microsoft.Bot.Builder;
using Microsoft.Bot.Schema;

namespace EarHelp.Bot.Tests;

/// <summary>Answers "heard" and remembers how often it was reached.</summary>
sealed class RecordingBot : IBot
{
    public int Turns { get; private set; }

    public async Task OnTurnAsync(ITurnContext turnContext, CancellationToken cancellationToken = default)
    {
        Turns++;
        await turnContext.SendActivityAsync(MessageFactory.Text("heard"), cancellationToken);
    }
}
