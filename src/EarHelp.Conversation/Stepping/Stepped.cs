using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.States;

namespace EarHelp.Conversation.Stepping;

/// <summary>What one turn leads to.</summary>
public sealed record Stepped(ConversationState State, ImmutableArray<Reply> Replies);
