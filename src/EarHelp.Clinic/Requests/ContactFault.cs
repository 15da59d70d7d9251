using System.Collections.Immutable;

namespace EarHelp.Clinic.Requests;

/// <summary>What keeps the clinic from reaching a person by these details.</summary>
public enum ContactFault
{
    NoWay,
    NoNumber,
    NoEmail,
    WrongNumber,
    WrongEmail,
}

/// <summary>Looks at contact details before they are sent: one way to reach the person is all that is needed.</summary>
public static class ContactCheck
{
    /// <summary>The fewest digits of a number that can be called (the shortest numbers of a country; common practice).</summary>
    const int FewestDigits = 3;

    /// <summary>The most digits of a telephone number. Source: ITU-T E.164, 6.1 (15 digits), and 2 for the prefix "00".</summary>
    const int MostDigits = 17;

    /// <summary>The longest address. Source: RFC 5321, 4.5.3.1.3 (a path of 256 with its two brackets).</summary>
    public const int LongestEmail = 254;

    public static ImmutableArray<ContactFault> FaultsOf(ContactDetails contact)
    {
        ArgumentNullException.ThrowIfNull(contact);
        var faults = ImmutableArray.CreateBuilder<ContactFault>();
        var needsNumber = contact.ReachBy is ReachBy.TextMessage or ReachBy.Call or ReachBy.RelayCall;
        if (contact.Number.Length > 0 && !IsNumber(contact.Number))
            faults.Add(ContactFault.WrongNumber);
        if (contact.Email.Length > 0 && !IsEmail(contact.Email))
            faults.Add(ContactFault.WrongEmail);
        if (contact.ReachBy == ReachBy.NotSaid && contact.Number.Length + contact.Email.Length == 0)
            faults.Add(ContactFault.NoWay);
        if (needsNumber && contact.Number.Length == 0)
            faults.Add(ContactFault.NoNumber);
        if (contact.ReachBy == ReachBy.Email && contact.Email.Length == 0)
            faults.Add(ContactFault.NoEmail);
        return faults.ToImmutable();
    }

    static bool IsNumber(string written) =>
        written.All(c => char.IsAsciiDigit(c) || " +-./()".Contains(c, StringComparison.Ordinal))
        && written.Count(char.IsAsciiDigit) is >= FewestDigits and <= MostDigits
        && written.LastIndexOf('+') <= 0;

    /// <summary>One sign "at" with something on both sides, and no blank: whether it is read, only a message can tell.</summary>
    public static bool IsEmail(string written)
    {
        ArgumentNullException.ThrowIfNull(written);
        var at = written.LastIndexOf('@');
        return at > 0 && at < written.Length - 1 && written.Length <= LongestEmail && written.IndexOf('@') == at
            && !written.Any(c => char.IsWhiteSpace(c) || char.IsControl(c) || c is '<' or '>' or ',' or ';');
    }
}
