using NodaTime;

namespace EarHelp.Cli.Reading;

/// <summary>A message that came as a line of JSON.</summary>
/// <param name="Id">As it was written, with its quotes if it had some.</param>
/// <param name="Day">At the clinic.</param>
public sealed record MessageLine(string Id, string Text, LocalDate Day);
