using EarHelp.Conversation.Keeping;
using EarHelp.Storage.Tests.Fakes;

namespace EarHelp.Storage.Tests;

public sealed class CollectingTurnStoreTests : TurnStoreContract
{
    public override Task DisposeAsync() => Task.CompletedTask;

    protected override Task<ITurnStore> OpenAsync() => Task.FromResult<ITurnStore>(new CollectingTurnStore());
}
