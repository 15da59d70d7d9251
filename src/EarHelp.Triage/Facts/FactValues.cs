using System.Collections.Immutable;
using System.Globalization;

namespace EarHelp.Triage.Facts;

/// <summary>The finite set of values that a fact can take; each value has an index from 0.</summary>
public abstract record FactValues
{
    FactValues()
    {
    }

    /// <summary>How many values there are.</summary>
    public abstract int Count { get; }

    public ValueSet All => ValueSet.Between(0, Count - 1);

    /// <summary>The value as its author would write it.</summary>
    public abstract string NameOf(int index);

    /// <summary>The index of a value, or null if it is not one of these.</summary>
    public abstract int? IndexOf(string written);

    /// <summary>Named values in the order of their author; yes/no facts are <c>yes, no</c> in whatever order they were written.</summary>
    public sealed record Named(ImmutableArray<string> Names) : FactValues
    {
        public override int Count => Names.Length;

        public bool IsYesNo => Names.Length == 2 && Names.Contains("yes") && Names.Contains("no");

        public override string NameOf(int index) => Names[index];

        public override int? IndexOf(string written)
        {
            var index = Names.IndexOf(written);
            return index < 0 ? null : index;
        }
    }

    /// <summary>Numbers from <paramref name="From"/> to <paramref name="To"/>, both included, in steps.</summary>
    public sealed record Numbers(decimal From, decimal To, decimal Step, string Unit) : FactValues
    {
        public override int Count => (int)((To - From) / Step) + 1;

        public decimal ValueOf(int index) => From + (index * Step);

        public override string NameOf(int index) => ValueOf(index).ToString(CultureInfo.InvariantCulture);

        public override int? IndexOf(string written) =>
            decimal.TryParse(written, NumberStyles.Number, CultureInfo.InvariantCulture, out var value) ? IndexOf(value) : null;

        /// <summary>The index of a number that is exactly one of the steps, or null.</summary>
        public int? IndexOf(decimal value)
        {
            if (value < From || value > To)
                return null;
            var steps = (value - From) / Step;
            return steps == decimal.Truncate(steps) ? (int)steps : null;
        }

        /// <summary>Indexes of the steps that lie in a range, both ends included; what lies outside the range of the fact is cut off.</summary>
        public ValueSet Between(decimal from, decimal to)
        {
            var first = from <= From ? 0 : (int)decimal.Ceiling((Math.Min(from, To + Step) - From) / Step);
            var last = to >= To ? Count - 1 : to < From ? -1 : (int)decimal.Floor((to - From) / Step);
            return ValueSet.Between(first, last);
        }
    }
}
