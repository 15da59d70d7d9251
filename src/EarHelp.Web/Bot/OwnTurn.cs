using System.Collections.Immutable;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Bot;

/// <summary>A turn from this process itself, which needs no reading.</summary>
sealed record OwnTurn(string Conversation, Turn Turn, ImmutableArray<ConversationKey> NewKeys);
