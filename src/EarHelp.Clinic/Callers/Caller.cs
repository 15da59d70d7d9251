using NodaTime;

namespace EarHelp.Clinic.Callers;

/// <summary>That the desk holds a conversation for somebody who telephones. It is erased with the conversation.</summary>
/// <param name="By">Identifier of the account.</param>
/// <param name="Number">Where to call back if the call breaks off, as it was written; empty if it was not said.</param>
/// <param name="FollowedUpBy">Identifier of the account that saw to a call that broke off; null: nobody yet.</param>
public sealed record Caller(string Conversation, string By, Instant At, string Number, string? FollowedUpBy);
