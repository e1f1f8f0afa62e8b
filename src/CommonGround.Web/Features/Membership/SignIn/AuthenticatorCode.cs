using QRCoder;

namespace CommonGround.Web.Features.Membership;

/// <summary>The key of an authenticator app, as a square code and as text.</summary>
public static class AuthenticatorCode
{
    private const string Issuer = "CommonGround";

    /// <summary>The address such apps read; its form is common practice (the "Key URI Format"), the code itself RFC 6238.</summary>
    public static string Address(string email,
        string key) => $"otpauth://totp/{Issuer}:{Uri.EscapeDataString(email)}?secret={key}&issuer={Issuer}&digits=6";

    public static string Svg(string email, string key)
    {
        using var generator = new QRCodeGenerator();
        using var data = generator.CreateQrCode(Address(email, key), QRCodeGenerator.ECCLevel.M);
        using var code = new SvgQRCode(data);
        return code.GetGraphic(new System.Drawing.Size(220, 220), "#000000", "#ffffff", drawQuietZones: true,
            SvgQRCode.SizingMode.ViewBoxAttribute);
    }

    public static string Grouped(string key) => string.Join(' ', key.Chunk(4).Select(c => new string(c))).ToLowerInvariant();
}
