using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace EarHelp.Content.Reading;

/// <summary>One line of the settings at the top of a file.</summary>
sealed record Setting(string Name, string Value, SourceSpot Spot, SourceSpot ValueSpot);

/// <summary>The settings at the top of a file.</summary>
sealed class Settings(ImmutableArray<Setting> all, SourceSpot spot)
{
    public static Settings None(SourceText text) => new([], text.SpotAt(0));

    public SourceSpot Spot => spot;

    public ImmutableArray<Setting> All => all;

    public Setting? Find(string name) => all.FirstOrDefault(s => string.Equals(s.Name, name, StringComparison.Ordinal));

    /// <summary>Reads the YAML events one by one: no types are looked into, and every value keeps its spot.</summary>
    /// <param name="yaml">The lines between the two <c>---</c>, which begin on the second line of the file.</param>
    public static Settings Read(string yaml, SourceText text, ProblemList problems)
    {
        var found = ImmutableArray.CreateBuilder<Setting>();
        try
        {
            var parser = new Parser(new StringReader(yaml));
            parser.Consume<StreamStart>();
            if (parser.TryConsume<DocumentStart>(out _))
            {
                if (parser.TryConsume<MappingStart>(out _))
                    ReadPairs(parser, text, found, problems);
                else if (parser.Current is not Scalar { Value: "" })
                    problems.Add(Codes.SettingsUnreadable, text.SpotAt(0), "The settings are not lines of \"name: value\".", "Write one setting a line, such as \"title: Things in the ear\".");
            }
        }
        catch (Exception gaveUp) when (gaveUp is InvalidOperationException or EndOfStreamException)
        {
            // The YAML scanner gives up on some damaged text with these exceptions, and with no place.
            problems.Add(Codes.SettingsUnreadable, text.SpotAt(0), "The settings cannot be read.", "Write \"name: value\", one a line; put a value that holds \": \", \"#\" or begins with a mark into straight quotes.");
        }
        catch (YamlException e)
        {
            problems.Add(Codes.SettingsUnreadable, SpotOf(e.Start, text), "The settings cannot be read from here on.",
                "Write \"name: value\", one a line; put a value that holds \": \", \"#\" or begins with a mark into straight quotes.");
        }

        return new Settings(found.ToImmutable(), text.SpotAt(0));
    }

    static void ReadPairs(Parser parser, SourceText text, ImmutableArray<Setting>.Builder found, ProblemList problems)
    {
        while (!parser.TryConsume<MappingEnd>(out _))
        {
            if (!parser.TryConsume<Scalar>(out var name) || !parser.TryConsume<Scalar>(out var value))
            {
                problems.Add(Codes.SettingsUnreadable, SpotOf(parser.Current?.Start ?? Mark.Empty, text), "A setting has more than one value.", "Write one value after the colon, on the same line.");
                parser.SkipThisAndNestedEvents();
                continue;
            }

            var spot = SpotOf(name.Start, text);
            if (found.Any(s => s.Name == name.Value))
                problems.Add(Codes.DoubledName, spot, $"The setting \"{name.Value}\" stands twice.", "Keep one of them.");
            if (value.Value.AsSpan().IndexOfAny('\u201C', '\u201D') == 0)
                problems.Add(Codes.WrongSetting, SpotOf(value.Start, text), "The value stands in curly quotes.", "Use straight quotes: \".");
            found.Add(new Setting(name.Value, value.Value.Trim(), spot, SpotOf(value.Start, text)));
        }
    }

    static SourceSpot SpotOf(Mark mark, SourceText text) => new(text.Path, (int)mark.Line + 1, Math.Max(1, (int)mark.Column));
}
