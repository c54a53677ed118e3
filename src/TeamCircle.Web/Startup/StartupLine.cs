using Microsoft.AspNetCore.Connections;
using TeamCircle.Data;

namespace TeamCircle.Web.Startup;

/// <summary>Turns what commonly keeps a portal from starting into one line that says what to do.</summary>
internal static class StartupLine
{
    /// <summary>The line, or null where the exception is a fault of ours and its trace is wanted.</summary>
    public static string? Of(Exception failure) => failure switch
    {
        StartupFailure known => known.Message,
        IOException { InnerException: AddressInUseException } taken =>
            $"The portal's port is taken ({AddressIn(taken.Message)}): stop the program that uses it, or choose another with --urls http://localhost:5081.",
        IOException { InnerException: System.Net.Sockets.SocketException or UnauthorizedAccessException } refused =>
            $"The portal may not listen at {AddressIn(refused.Message)}: choose another address with --urls http://localhost:5081.",
        _ => null,
    };

    // "Failed to bind to address http://127.0.0.1:5080: address already in use."
    private static string AddressIn(string message) =>
        message.Split(' ').FirstOrDefault(word => word.Contains("://", StringComparison.Ordinal))?.TrimEnd(':', '.') ?? "its address";
}
