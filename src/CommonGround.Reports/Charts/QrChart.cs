using QRCoder;

namespace CommonGround.Reports.Charts;

/// <summary>An address as a QR code (ISO/IEC 18004) that a telephone's camera reads.</summary>
public static class QrChart
{
    private const double Module = 4;

    /// <param name="address">The address itself; it is printed beside the code for those without a camera.</param>
    /// <param name="what">What is found there.</param>
    public static Chart Draw(string address, string what)
    {
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(address, QRCodeGenerator.ECCLevel.M);
        var rows = code.ModuleMatrix;
        var marks = new List<Mark>();
        for (var y = 0; y < rows.Count; y++)
        {
            for (var x = 0; x < rows.Count; x++)
            {
                if (!rows[y][x])
                {
                    continue;
                }

                var from = x;
                while (x + 1 < rows.Count && rows[y][x + 1])
                {
                    x++;
                }

                // A little taller than its row: else hairlines show between rows on some screens.
                marks.Add(new RectMark("solid", from * Module, y * Module, (x - from + 1) * Module, Module + 0.15));
            }
        }

        // The matrix holds the quiet zone of four modules that the standard asks for.
        return new Chart(rows.Count * Module, rows.Count * Module, $"QR code of {address}: {what}", marks);
    }
}
