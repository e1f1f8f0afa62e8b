using System.Security.Cryptography;
using System.Text;

namespace CommonGround.Web.Features.Membership;

/// <summary>Codes that somebody may have to read off paper: no letters that look like figures.</summary>
public static class Codes
{
    private const string Letters = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";

    /// <summary>Groups of four: four of them are 79 bits, six 118.</summary>
    public static string New(int groups = 4) => string.Join('-',
        Enumerable.Range(0, groups).Select(_ => RandomNumberGenerator.GetString(Letters, 4)));

    /// <summary>What is stored of a code, however it was typed.</summary>
    public static string Hash(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        var bare = new string([.. code.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit)]);
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(bare)));
    }

    public static bool Same(string one, string other) =>
        CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(Hash(one)), Encoding.UTF8.GetBytes(Hash(other)));
}
