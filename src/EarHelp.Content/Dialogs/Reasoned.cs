using EarHelp.Content.Reading;

namespace EarHelp.Content.Dialogs;

/// <summary>Reads <c>none, because …</c>.</summary>
static class Reasoned
{
    /// <summary>The reason, empty if there is none; null if the cell does not begin with the word.</summary>
    public static string? Read(PageCell cell, string word)
    {
        var text = cell.Text;
        if (text == word)
            return "";
        if (!text.StartsWith(word + ",", StringComparison.Ordinal) && !text.StartsWith(word + " ", StringComparison.Ordinal))
            return null;
        var rest = text[(word.Length + 1)..].Trim();
        return rest.StartsWith("because", StringComparison.Ordinal) ? rest["because".Length..].Trim() : "";
    }
}
