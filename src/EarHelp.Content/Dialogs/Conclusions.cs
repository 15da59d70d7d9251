namespace EarHelp.Content.Dialogs;

/// <summary>The conclusion columns that the program knows.</summary>
static class Conclusions
{
    public const string Level = "level";
    public const string Where = "where";
    public const string Warn = "warn";
    public const string Give = "give";
    public const string Withhold = "withhold";
    public const string CountsFrom = "counts from";
    public const string MayTreat = "clinic may treat";
    public const string Because = "because";
    public const string Source = "source";
    public const string Sure = "sure";
    public const string AlsoSaidBy = "also said by";

    public static readonly string[] All =
        [Level, Where, Warn, Give, Withhold, CountsFrom, MayTreat, Because, Source, Sure, AlsoSaidBy];
}
