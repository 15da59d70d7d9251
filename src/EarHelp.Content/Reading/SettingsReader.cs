using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Triage.Texts;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace EarHelp.Content.Reading;

/// <summary>Reads the settings at the top of a page: names and plain values.</summary>
static class SettingsReader
{
    /// <param name="linesBefore">Lines of the file above the settings.</param>
    public static ImmutableArray<Setting> Read(string path, string yaml, int linesBefore, ProblemList problems)
    {
        var settings = ImmutableArray.CreateBuilder<Setting>();
        try
        {
            var parser = new Parser(new StringReader(yaml));
            while (parser.MoveNext() && parser.Current is StreamStart or DocumentStart)
            {
            }

            if (parser.Current is MappingStart)
            {
                while (parser.MoveNext() && parser.Current is Scalar name)
                {
                    parser.MoveNext();
                    var spot = SpotOf(name.Start);
                    if (parser.Current is not Scalar value)
                    {
                        problems.Add(Codes.BadSettings, spot, $"The setting \"{name.Value}\" is not one plain value.", $"Write {name.Value}: value on one line.");
                        return settings.ToImmutable();
                    }

                    if (settings.Any(s => s.Name == name.Value))
                        problems.Add(Codes.BadSettings, spot, $"The setting \"{name.Value}\" stands twice.", "Keep one of them.");
                    settings.Add(new Setting(name.Value, value.Value, spot));
                }
            }
        }
        catch (InvalidOperationException)
        {
            // The YAML scanner gives up on some damaged text with this exception, and with no place.
            problems.Add(Codes.BadSettings, new SourceSpot(path, linesBefore, 1), "The settings at the top cannot be read.", "Write one \"name: value\" a line; put a value with a colon or a hash in quotes.");
        }
        catch (YamlException fault)
        {
            problems.Add(Codes.BadSettings, SpotOf(fault.Start), "The settings at the top cannot be read here.", "Write one \"name: value\" a line; put a value with a colon or a hash in quotes.");
        }

        return settings.ToImmutable();

        SourceSpot SpotOf(Mark mark) => new(path, (int)mark.Line + linesBefore, Math.Max(1, (int)mark.Column));
    }
}
