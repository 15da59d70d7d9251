using System.Globalization;
using System.Numerics;

namespace EarHelp.Proof.Patients;

/// <summary>Numbers of patients for people to read; the exact number stands in the finding.</summary>
public static class Amount
{
    const int MostDigits = 15;
    const int DigitsShown = 3;

    public static string InWords(BigInteger patients)
    {
        var digits = patients.ToString(CultureInfo.InvariantCulture);
        return digits.Length <= MostDigits
            ? patients.ToString("N0", CultureInfo.InvariantCulture)
            : $"{digits[0]}.{digits[1..DigitsShown]} × 10^{(digits.Length - 1).ToString(CultureInfo.InvariantCulture)}";
    }
}
