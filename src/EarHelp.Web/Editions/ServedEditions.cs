using System.Collections.Immutable;
using EarHelp.Triage.Texts;

namespace EarHelp.Web.Editions;

/// <summary>Which edition is served. A broken one never takes the place of a good one.</summary>
public sealed class ServedEditions
{
    volatile ServedEdition? _current;

    /// <summary>Null until the first edition without a fault.</summary>
    public ServedEdition? Current => _current;

    internal void Serve(ServedEdition edition) => _current = edition;
}
