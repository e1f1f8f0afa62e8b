using System.Buffers.Binary;
using System.Security.Cryptography;
using CommonGround.Storage.Publishing;

namespace CommonGround.Web.Features.Export;

/// <summary>Moves a yard's place for files that leave the group: always by the offset kept with it, so that many files together tell no
/// more than one.</summary>
public static class PlaceOffset
{
    public const double FarthestMetres = YardOffset.FarthestMetres;

    /// <summary>Darwin Core's dataGeneralizations, in words.</summary>
    public const string Generalised =
        "Places of yards are moved by 100 to 300 m, each always the same way; coordinateUncertaintyInMeters is 300. Areas are given in "
        + "classes, each by the middle of its class.";

    /// <summary>Darwin Core's informationWithheld, in words.</summary>
    public const string Withheld =
        "Street, block, household, observer and remarks are withheld, and so are names of beds and the codes that yards have in the "
        + "group. Yards of households that do not agree are left out.";

    /// <summary>Metres of one degree of latitude on a sphere of mean radius 6,371,008.8 m (IUGG).</summary>
    private const double MetresPerDegree = 6_371_008.8 * Math.PI / 180;

    public static string NewKey() => Convert.ToHexString(RandomNumberGenerator.GetBytes(32));

    /// <summary>The offset that yards had from the neighbourhood's secret before it was kept with them.</summary>
    public static (double NorthMetres, double EastMetres) OfKey(string key, long yardId)
    {
        Span<byte> id = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(id, yardId);
        var hash = HMACSHA256.HashData(Convert.FromHexString(key), id);
        return YardOffset.On(YardOffset.Fraction(hash.AsSpan(0, 8)), YardOffset.Fraction(hash.AsSpan(8, 8)));
    }

    public static (double Latitude, double Longitude) Move(double latitude, double longitude, double northMetres, double eastMetres) =>
        (Math.Round(latitude + (northMetres / MetresPerDegree), 5),
            Math.Round(longitude + (eastMetres / (MetresPerDegree * Math.Cos(latitude * Math.PI / 180))), 5));
}
