using System.Net;
using System.Net.Sockets;

namespace CommonGround.Web.Features.Membership;

/// <summary>Addresses as the record keeps them: the network, not the home.</summary>
public static class Network
{
    /// <summary>IPv4 without its last eight bits, IPv6 without its last eighty; empty when not known.</summary>
    public static string Shorten(IPAddress? address)
    {
        if (address is null)
        {
            return "";
        }

        if (address.IsIPv4MappedToIPv6)
        {
            address = address.MapToIPv4();
        }

        if (IPAddress.IsLoopback(address))
        {
            return "this machine";
        }

        var bytes = address.GetAddressBytes();
        var kept = address.AddressFamily == AddressFamily.InterNetwork ? 3 : 6;
        Array.Clear(bytes, kept, bytes.Length - kept);
        return $"{new IPAddress(bytes)}/{kept * 8}";
    }
}
