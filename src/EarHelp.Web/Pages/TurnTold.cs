using System.Collections.Immutable;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Turns;

namespace EarHelp.Web.Pages;

/// <summary>One turn of a conversation as it is kept: what was said and what was replied.</summary>
public sealed record TurnTold(Turn Turn, ImmutableArray<Reply> Replies);
