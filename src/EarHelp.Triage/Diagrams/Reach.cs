namespace EarHelp.Triage.Diagrams;

/// <summary>What lies below a node: the facts that it and the nodes under it test, and the ends they lead to.</summary>
/// <param name="Facts">The facts that it and the nodes under it test.</param>
/// <param name="Ends">A bit a value; <see cref="OtherEnds"/> stands for all greater ones, the last bit for "no patient gets here".</param>
readonly record struct Reach(FactBits Facts, ulong Ends)
{
    /// <summary>The bit of the values that are too many to have one each.</summary>
    public const int OtherEnds = 62;

    const int ImpossibleEnd = 63;

    /// <summary>Every possible answer gets somewhere: so two different reduced nodes differ for some patient.</summary>
    public bool IsAlwaysPossible => Ends >> ImpossibleEnd == 0;

    /// <summary>The ends that patients get to.</summary>
    public ulong PossibleEnds => Ends & ~(1UL << ImpossibleEnd);

    public static Reach OfTerminal(int terminal) =>
        new(FactBits.None, 1UL << (terminal == Terminal.Impossible ? ImpossibleEnd : Math.Min(Terminal.ValueOf(terminal), OtherEnds)));

    public Reach With(Reach other) => new(Facts | other.Facts, Ends | other.Ends);

    public Reach Under(int fact) => this with { Facts = Facts | FactBits.Of(fact) };
}
