using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace CommonGround.Web.Features.Export;

/// <summary>A name for a row that is the same in every export and on no other row in the world, and that does not tell which row it
/// is.</summary>
public static class RecordKey
{
    /// <summary>A UUID of version 8 (RFC 9562, section 5.8) from the row's key under the neighbourhood's secret.</summary>
    public static Guid Of(string secret, string kind, long id)
    {
        ArgumentNullException.ThrowIfNull(secret);
        var text = string.Create(CultureInfo.InvariantCulture, $"occurrence/{kind}/{id}");
        var bytes = HMACSHA256.HashData(Encoding.UTF8.GetBytes(secret), Encoding.UTF8.GetBytes(text))[..16];
        bytes[6] = (byte)((bytes[6] & 0x0F) | 0x80);
        bytes[8] = (byte)((bytes[8] & 0x3F) | 0x80);
        return new Guid(bytes, bigEndian: true);
    }
}
