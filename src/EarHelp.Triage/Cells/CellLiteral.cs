namespace EarHelp.Triage.Cells;

/// <summary>A value as it stands in a cell.</summary>
/// <param name="IsName">A bare name; it stands for the text of the same letters.</param>
/// <param name="Offset">Where it starts in the cell, from 0.</param>
public sealed record CellLiteral(FeelValue Value, bool IsName, int Offset)
{
    /// <summary>The bare names <c>yes</c> and <c>no</c> also stand for true and false.</summary>
    public bool IsSameAs(FeelValue other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Value.Equals(other) || (other is FeelValue.Truth truth && AsTruth == truth.Value);
    }

    public bool IsSameKindAs(FeelValue other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Value.GetType() == other.GetType() || (other is FeelValue.Truth && AsTruth is not null);
    }

    /// <summary>The name, text, number or date without quotes.</summary>
    public string Written => Value is FeelValue.Text text ? text.Value : Value.ToString();

    bool? AsTruth => (Value, IsName) switch
    {
        (FeelValue.Truth truth, _) => truth.Value,
        (FeelValue.Text { Value: "yes" }, true) => true,
        (FeelValue.Text { Value: "no" }, true) => false,
        _ => null,
    };
}
