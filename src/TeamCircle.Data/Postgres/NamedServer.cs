using System.Net;
using System.Security.Authentication;
using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>A server that a connection string names: what must hold before anything is said to it, and what its silence or refusal means.</summary>
/// <remarks>OWASP ASVS 5.0.0, 12.3.1 and 12.3.2: connections to the database are encrypted and the server's certificate is checked.</remarks>
internal static class NamedServer
{
    /// <summary>Is <c>yes</c> where only the installation's own machines are on the network between, as between the containers of one host.</summary>
    public const string PlainSetting = "TEAMCIRCLE_PLAIN_DATABASE";

    /// <param name="variable">The environment variable that holds the connection string.</param>
    /// <param name="reach">What is tried with it.</param>
    /// <exception cref="StartupFailure">One line that says what to do, without anything of the connection string in it.</exception>
    public static async Task<T> ReachAsync<T>(string variable, string connection, Func<Task<T>> reach)
    {
        try
        {
            RequireEncryption(variable, new NpgsqlConnectionStringBuilder(connection));
            return await reach();
        }
        catch (ArgumentException cause)
        {
            throw new StartupFailure($"{variable} can't be read: write it as Host=…;Database=…;Username=…;Password=….", cause);
        }
        catch (PostgresException cause)
        {
            throw new StartupFailure($"The server that {variable} names refused ({cause.SqlState}): check the database, user name, password and rights.", cause);
        }
        catch (NpgsqlException cause) when (Causes(cause).Any(c => c is AuthenticationException))
        {
            throw new StartupFailure($"The server that {variable} names can't prove who it is: its certificate is not of the authority in Root Certificate, is out of date, or is for another host name.", cause);
        }
        catch (NpgsqlException cause) when (Causes(cause).Any(c => c.Message.Contains("SSL", StringComparison.Ordinal)))
        {
            throw new StartupFailure($"The server that {variable} names offers no encryption: give it a certificate and switch its ssl on.", cause);
        }
        catch (NpgsqlException cause)
        {
            throw new StartupFailure($"No server answers where {variable} points: check its host and port, and that the server runs.", cause);
        }
    }

    private static void RequireEncryption(string variable, NpgsqlConnectionStringBuilder named)
    {
        if (named.SslMode is SslMode.VerifyFull || Environment.GetEnvironmentVariable(PlainSetting) == "yes")
            return;
        if (!(named.Host ?? "").Split(',', StringSplitOptions.TrimEntries).All(IsThisMachine))
            throw new StartupFailure($"{variable} names a server on another machine without checked encryption: add SSL Mode=VerifyFull to it, and Root Certificate=FILE for an authority of your own; or set {PlainSetting}=yes where only your own machines are on the network between.");
    }

    private static bool IsThisMachine(string host) =>
        host.Length == 0 || host[0] is '/' or '@' || host.Split(':')[0] == "localhost"
        || (IPEndPoint.TryParse(host, out var address) && IPAddress.IsLoopback(address.Address));

    private static IEnumerable<Exception> Causes(Exception cause)
    {
        IEnumerable<Exception> inner = cause switch
        {
            AggregateException many => many.InnerExceptions,
            { InnerException: { } one } => [one],
            _ => [],
        };
        return [cause, .. inner.SelectMany(Causes)];
    }
}
