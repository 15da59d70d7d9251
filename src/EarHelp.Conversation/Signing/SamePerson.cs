using System.Text;

namespace EarHelp.Conversation.Signing;

/// <summary>Whether two written names are one name: capitals, spaces and ways to encode a letter make no second person.</summary>
public static class SamePerson
{
    public static bool Is(string one, string other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        return string.Equals(Plain(one), Plain(other), StringComparison.OrdinalIgnoreCase);
    }

    static string Plain(string name) =>
        string.Join(' ', name.Normalize(NormalizationForm.FormKC).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
