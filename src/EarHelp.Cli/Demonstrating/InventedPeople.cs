using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using EarHelp.Clinic.Requests;
using EarHelp.Content.Demonstrations;

namespace EarHelp.Cli.Demonstrating;

/// <summary>Names, ways to be reached and identifiers of people who do not exist; the same for the same seed.</summary>
sealed class InventedPeople(InventedWeek week, int seed)
{
    /// <summary>Telephone numbers from a range that is kept for drama in the United Kingdom (from memory): 07700 900000 to 900999.</summary>
    const string NumbersOfDrama = "07700 900";

    /// <summary>The first of them that is given to a patient; those below stand in the file.</summary>
    const int FirstNumber = 400;

    static readonly ReachBy[] Ways = [ReachBy.TextMessage, ReachBy.Call, ReachBy.Email, ReachBy.NotSaid, ReachBy.RelayCall];

    int _people;
    int _identifiers;

    /// <summary>In the form in which the service makes identifiers, which are no secrets.</summary>
    public string NextIdentifier()
    {
        var hash = SHA256.HashData(Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"invented:{seed}:{++_identifiers}")));
        return System.Buffers.Text.Base64Url.EncodeToString(hash.AsSpan(0, 16));
    }

    /// <summary>A name made of the two lists; no two in a row are alike.</summary>
    public string NextName() => $"{week.FirstNames[_people % week.FirstNames.Length]} {week.Surnames[_people % week.Surnames.Length]}";

    public ContactDetails NextContact(string name, IReadOnlyCollection<string> needs)
    {
        var way = Ways[_people % Ways.Length];
        var number = string.Create(CultureInfo.InvariantCulture, $"{NumbersOfDrama}{FirstNumber + (_people % FirstNumber)}");
        _people++;
        var email = name.ToLowerInvariant().Replace(' ', '.') + "@example.org";
        return new ContactDetails(name, "", way, way == ReachBy.Email ? "" : number, way is ReachBy.Email or ReachBy.NotSaid ? email : "", NeedsOf(needs));
    }

    static VisitNeeds NeedsOf(IReadOnlyCollection<string> needs)
    {
        const string Interpreter = "interpreter: ";
        var language = needs.FirstOrDefault(n => n.StartsWith(Interpreter, StringComparison.Ordinal))?[Interpreter.Length..];
        return new VisitNeeds(
            language is not null, language ?? "", needs.Contains("sign language"), needs.Contains("step-free"), needs.Contains("carer"), needs.Contains("chaperone"),
            needs.Contains("been before"), "");
    }
}
