using NodaTime;

namespace EarHelp.Understanding.Messages;

/// <param name="Kind">As the authors' table names it.</param>
/// <param name="Day">The day of the year that it names, if it names one.</param>
readonly record struct Trigger(string Kind, AnnualDate? Day = null);
