using System.Text;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;

namespace EarHelp.Cli.Describing;

/// <summary>The facts as lines for a person.</summary>
public static class FactsTable
{
    public static string Write(Dialog dialog)
    {
        ArgumentNullException.ThrowIfNull(dialog);
        var widest = dialog.Facts.Max(f => f.Id.Length);
        var text = new StringBuilder();
        foreach (var fact in dialog.Facts)
        {
            text.Append(fact.Id.PadRight(widest + 2))
                .Append(fact.About == About.Ear ? "ear     " : "person  ")
                .Append(FactWords.Values(fact))
                .Append(fact.RedFlag is RedFlag.Marked ? "  (red flag)" : string.Empty)
                .Append('\n');
        }

        return text.ToString().TrimEnd('\n');
    }
}
