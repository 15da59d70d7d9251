namespace EarHelp.Triage.Diagrams;

/// <summary>
/// A set of facts, a bit each; the last bit stands for every fact from <see cref="LastBit"/> on. Two words of our own, since code that
/// passes the platform's 128-bit number along cannot be compiled ahead of time.
/// </summary>
readonly record struct FactBits(ulong Low, ulong High)
{
    public const int LastBit = 127;

    const int BitsOfWord = 64;

    public static FactBits None => default;

    public static FactBits All => new(ulong.MaxValue, ulong.MaxValue);

    public bool IsEmpty => (Low | High) == 0;

    public static FactBits Of(int fact)
    {
        var bit = Math.Min(fact, LastBit);
        return bit < BitsOfWord ? new(1UL << bit, 0) : new(0, 1UL << (bit - BitsOfWord));
    }

    public static FactBits operator |(FactBits one, FactBits other) => new(one.Low | other.Low, one.High | other.High);

    public static FactBits operator &(FactBits one, FactBits other) => new(one.Low & other.Low, one.High & other.High);

    public FactBits Without(FactBits other) => new(Low & ~other.Low, High & ~other.High);
}
