using System.Net;
using System.Net.Sockets;

namespace TeamCircle.Web.Startup;

/// <summary>Where a request comes from, for limits and for the events of an account.</summary>
internal static class NetworkAddress
{
    /// <summary>An IPv4 address, or the first half of an IPv6 one: a household has as many of the others as it likes.</summary>
    public static string Of(HttpContext http)
    {
        var address = http.Connection.RemoteIpAddress;
        if (address is { IsIPv4MappedToIPv6: true })
            address = address.MapToIPv4();
        if (address is not { AddressFamily: AddressFamily.InterNetworkV6 })
            return address?.ToString() ?? "unknown";
        var half = address.GetAddressBytes();
        half.AsSpan(8).Clear();
        return $"{new IPAddress(half)}/64";
    }
}
