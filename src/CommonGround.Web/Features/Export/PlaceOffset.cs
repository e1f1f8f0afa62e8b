using System.Buffers.Binary;
using System.Security.Cryptography;

namespace CommonGround.Web.Features.Export;

/// <summary>Moves a yard's place for files that leave the group: always by the same offset, so that many files together tell no more than one.</summary>
public static class PlaceOffset
{
    public const double NearestMetres = 100, FarthestMetres = 300;

    /// <summary>Darwin Core's dataGeneralizations, in words.</summary>
    public const string Generalised = "Places of yards are moved by 100 to 300 m, each always the same way; coordinateUncertaintyInMeters is 300. Yards of households that do not agree are left out.";

    /// <summary>Metres of one degree of latitude on a sphere of mean radius 6,371,008.8 m (IUGG).</summary>
    private const double MetresPerDegree = 6_371_008.8 * Math.PI / 180;

    public static string NewKey() => Convert.ToHexString(RandomNumberGenerator.GetBytes(32));

    /// <param name="key">The neighbourhood's secret; without it nobody finds the way back.</param>
    public static (double Latitude, double Longitude) Move(double latitude, double longitude, string key, long yardId)
    {
        Span<byte> id = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(id, yardId);
        var hash = HMACSHA256.HashData(Convert.FromHexString(key), id);
        var turn = 2 * Math.PI * Fraction(hash.AsSpan(0, 8));
        // Spread evenly over the ring.
        var metres = Math.Sqrt((NearestMetres * NearestMetres) + (Fraction(hash.AsSpan(8, 8)) * ((FarthestMetres * FarthestMetres) - (NearestMetres * NearestMetres))));
        var moved = latitude + (metres * Math.Cos(turn) / MetresPerDegree);
        return (Math.Round(moved, 5), Math.Round(longitude + (metres * Math.Sin(turn) / (MetresPerDegree * Math.Cos(latitude * Math.PI / 180))), 5));
    }

    private static double Fraction(ReadOnlySpan<byte> bytes) => (BinaryPrimitives.ReadUInt64BigEndian(bytes) >> 11) * (1.0 / (1UL << 53));
}
