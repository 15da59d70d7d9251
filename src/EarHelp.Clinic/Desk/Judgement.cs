using EarHelp.Clinic.Requests;
using NodaTime;

namespace EarHelp.Clinic.Desk;

/// <summary>How urgent a member of staff calls a request, after looking at it. What the patient answers later may make it more urgent again.</summary>
/// <param name="Because">The reason as it was written; the patient reads it.</param>
/// <param name="By">Identifier of the account.</param>
public sealed record Judgement(Urgency Urgency, string Because, string By, Instant At);
