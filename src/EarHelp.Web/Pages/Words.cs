using System.Text;
using EarHelp.Triage.Editions;

namespace EarHelp.Web.Pages;

/// <summary>The words of one edition in one language, with their blanks filled in.</summary>
/// <param name="AboutSelf">Which half of <c>{you|they}</c> is read.</param>
public sealed record Words(Edition Edition, Wording Wording, bool AboutSelf)
{
    public Clinic Clinic => Edition.Clinic;

    /// <summary>A short text by its key.</summary>
    public string this[string key] => Say(key);

    /// <summary>The words of the first language that an edition speaks.</summary>
    public static Words First(Edition edition) =>
        new(edition, edition.Wordings.Values.OrderBy(w => w.Language, StringComparer.Ordinal).First(), AboutSelf: true);

    public string Say(string key, params ReadOnlySpan<(string Name, string Value)> blanks) =>
        Fill(Wording.Interface.GetValueOrDefault(key, key), blanks);

    /// <summary>What a blank stands for, or null if nobody fills it here.</summary>
    public string? Blank(string name) => name switch
    {
        "clinic" => Clinic.Name,
        "clinic phone" => Clinic.Phone,
        "clinic text" => Clinic.Text,
        "clinic email" => Clinic.Email,
        "clinic relay" => Clinic.Relay,
        "clinic address" => Clinic.Address,
        "country" => Clinic.Country,
        "emergency number" => Clinic.EmergencyNumber,
        "emergency without hearing" => Clinic.EmergencyWithoutHearing,
        "crisis line" => Clinic.CrisisLine,
        "crisis without hearing" => Clinic.CrisisWithoutHearing,
        _ => null,
    };

    /// <summary>Fills <c>{name}</c> and <c>{one|other}</c>; a blank that nobody fills stays as it was written.</summary>
    public string Fill(string text, params ReadOnlySpan<(string Name, string Value)> blanks)
    {
        if (!text.Contains('{', StringComparison.Ordinal))
            return text;
        var filled = new StringBuilder(text.Length + 32);
        var at = 0;
        while (at < text.Length)
        {
            var open = text.IndexOf('{', at);
            var close = open < 0 ? -1 : text.IndexOf('}', open);
            if (close < 0)
                break;
            filled.Append(text, at, open - at);
            filled.Append(FillOne(text[(open + 1)..close], blanks));
            at = close + 1;
        }

        return filled.Append(text, at, text.Length - at).ToString();
    }

    string FillOne(string name, ReadOnlySpan<(string Name, string Value)> blanks)
    {
        foreach (var blank in blanks)
        {
            if (string.Equals(blank.Name, name, StringComparison.Ordinal))
                return blank.Value;
        }

        var bar = name.IndexOf('|', StringComparison.Ordinal);
        return bar < 0 ? Blank(name) ?? $"{{{name}}}" : AboutSelf ? name[..bar] : name[(bar + 1)..];
    }
}
