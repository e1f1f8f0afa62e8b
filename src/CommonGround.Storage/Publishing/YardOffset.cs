using System.Security.Cryptography;

namespace CommonGround.Storage.Publishing;

/// <summary>How far, and which way, a yard's place is moved outside the group: drawn once for each yard and kept with it.</summary>
public static class YardOffset
{
    public const double NearestMetres = 100, FarthestMetres = 300;

    /// <summary>A new offset, spread evenly over the ring.</summary>
    public static (double NorthMetres, double EastMetres) Draw() => On(Fraction(RandomNumberGenerator.GetBytes(8)),
        Fraction(RandomNumberGenerator.GetBytes(8)));

    /// <summary>The point of the ring for two numbers of 0 to 1.</summary>
    public static (double NorthMetres, double EastMetres) On(double turn, double ring)
    {
        var metres = Math.Sqrt((NearestMetres * NearestMetres)
            + (ring * ((FarthestMetres * FarthestMetres) - (NearestMetres * NearestMetres))));
        return (Round(metres * Math.Cos(2 * Math.PI * turn)), Round(metres * Math.Sin(2 * Math.PI * turn)));
    }

    /// <summary>A number of 0 to below 1 from eight random bytes.</summary>
    public static double Fraction(ReadOnlySpan<byte> bytes) => (System.Buffers.Binary.BinaryPrimitives.ReadUInt64BigEndian(bytes) >> 11)
        * (1.0 / (1UL << 53));

    private static double Round(double metres) => Math.Round(metres, 2);
}
