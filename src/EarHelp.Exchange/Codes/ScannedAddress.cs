using System.Globalization;
using System.Text;
using QRCoder;

namespace EarHelp.Exchange.Codes;

/// <summary>An address as a picture that a telephone reads (QR code, ISO/IEC 18004), drawn as one path without a style of its own.</summary>
public static class ScannedAddress
{
    /// <summary>How many modules the drawing is wide and high, and what a path draws in that square.</summary>
    public static (int Size, string Path) Draw(string address)
    {
        // Level M: a seventh of the code may be hidden. The white edge that the standard wants belongs to the matrix.
        using var code = QRCodeGenerator.GenerateQrCode(address, QRCodeGenerator.ECCLevel.M);
        var path = new StringBuilder();
        for (var row = 0; row < code.ModuleMatrix.Count; row++)
        {
            for (var column = 0; column < code.ModuleMatrix[row].Count; column++)
            {
                if (code.ModuleMatrix[row][column])
                    path.Append(CultureInfo.InvariantCulture, $"M{column} {row}h1v1h-1z");
            }
        }

        return (code.ModuleMatrix.Count, path.ToString());
    }
}
