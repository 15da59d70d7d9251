namespace EarHelp.Clinic.Requests;

/// <summary>How the clinic reaches the person, and what helps at the visit. Kept apart from the conversation.</summary>
/// <param name="Name">Of the person with the ear problem; empty if not said.</param>
/// <param name="AskedBy">Of whoever asks for someone else; empty if not said.</param>
/// <param name="Number">A telephone number as it was written; empty if there is none.</param>
/// <param name="Email">An address as it was written; empty if there is none.</param>
public sealed record ContactDetails(string Name, string AskedBy, ReachBy ReachBy, string Number, string Email, VisitNeeds Needs)
{
    /// <summary>True if both can be reached by the same number, however it is written without its prefix, or by the same address.</summary>
    public bool IsSameAs(ContactDetails? other) =>
        other is not null
        && ((LastDigits(Number) is { Length: > 0 } digits && digits == LastDigits(other.Number))
            || (Email.Length > 0 && string.Equals(Email, other.Email, StringComparison.OrdinalIgnoreCase)));

    /// <summary>Without a prefix, which the same number may have or lack ("+44 7700 …", "07700 …").</summary>
    static string LastDigits(string number)
    {
        const int Compared = 9;
        var digits = string.Concat(number.Where(char.IsAsciiDigit));
        return digits.Length <= Compared ? digits : digits[^Compared..];
    }

    public static ContactDetails Empty { get; } = new("", "", ReachBy.NotSaid, "", "", VisitNeeds.None);
}

/// <summary>The way that suits the person; three of them need no hearing.</summary>
public enum ReachBy
{
    NotSaid,
    TextMessage,
    Email,
    Call,
    RelayCall,
}

/// <summary>What the clinic should have ready. All of it is optional.</summary>
/// <param name="Language">The interpreter's language; empty if not said.</param>
/// <param name="Carer">Someone comes along.</param>
/// <param name="Chaperone">The clinic should ask a second member of staff to be there.</param>
/// <param name="BeenBefore">False also if it was not said: a first visit takes longer.</param>
/// <param name="Note">In the person's own words; empty if nothing was written.</param>
public sealed record VisitNeeds(bool Interpreter, string Language, bool SignLanguage, bool StepFree, bool Carer, bool Chaperone, bool BeenBefore, string Note)
{
    public static VisitNeeds None { get; } = new(false, "", false, false, false, false, false, "");
}
