using System.Collections.Immutable;
using EarHelp.Content.Examples;
using EarHelp.Conversation.Turns;
using NodaTime;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Who holds a conversation, and when it begins.</summary>
/// <param name="Seed">How long this person thinks between two answers follows from it.</param>
sealed record ChosenPatient(ExampleRun Run, Instant At, int Seed)
{
    /// <summary>What a clinician recorded of a visit before, or null.</summary>
    public ImmutableArray<RecordedFact>? Recorded { get; init; }

    /// <summary>True if the conversation is there already: it was begun by recording a visit.</summary>
    public bool IsAfterVisit { get; init; }

    /// <summary>What is written first, or null.</summary>
    public string? Message { get; init; }

    /// <summary>Nobody answers after so many turns.</summary>
    public int MostTurns { get; init; } = int.MaxValue;

    /// <summary>The fact that this person does not know, or null.</summary>
    public string? NotSureOf { get; init; }
}
