using System.Collections.Immutable;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Texts;

namespace EarHelp.Content.Examples;

/// <summary>A patient who does not exist, with what must come out.</summary>
/// <param name="Name">The behaviour that must hold.</param>
/// <param name="IsClosed">What is not listed was asked and is clear.</param>
public sealed record Example(string Name, SourceSpot Spot, bool IsClosed, ImmutableArray<ExampleAnswer> Answers, ImmutableArray<Expected> Musts);

/// <param name="MayBe">The values that may be true: one is known, all are unsure.</param>
public sealed record ExampleAnswer(Fact Fact, ValueSet MayBe);
