using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using NodaTime;

namespace EarHelp.Content.Patients;

/// <summary>What is written about one fact of a patient.</summary>
/// <param name="Ear">Null: of the person, or of the one ear spoken about.</param>
/// <param name="Earliest">For a date: the earliest moment that it may stand for; else null.</param>
public sealed record GivenValue(Fact Fact, Ear? Ear, ValueSet MayBe, Instant? Earliest);
