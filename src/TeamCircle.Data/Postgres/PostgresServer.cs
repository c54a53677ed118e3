using Npgsql;

namespace TeamCircle.Data.Postgres;

/// <summary>Where a running server is reached.</summary>
/// <param name="Host">The folder of its socket, or a loopback address.</param>
/// <param name="Password">Null where the socket's folder is the guard.</param>
internal sealed record PostgresAddress(string Host, int Port, string? Password);

/// <summary>A running private PostgreSQL. Disposing it stops it where this process owns it, and only then.</summary>
public sealed class PostgresServer : IAsyncDisposable
{
    /// <summary>The superuser that initdb made. Only migrations use it, to make the other roles.</summary>
    public const string Bootstrap = "bootstrap";

    private readonly PostgresAddress _address;
    private readonly Func<Task> _stop;

    internal PostgresServer(PostgresAddress address, string folder, PostgresFiles files, bool adopted, Func<Task> stop)
    {
        (_address, Folder, Files, Adopted, _stop) = (address, folder, files, adopted, stop);
    }

    /// <summary>Where it keeps its data and log; may be another than was asked for, and then was noted.</summary>
    public string Folder { get; }

    public PostgresFiles Files { get; }

    /// <summary>True where it was already running: left by a process that was killed, or owned by another.</summary>
    public bool Adopted { get; }

    /// <summary>How a role reaches a database; over TCP only after <see cref="AllowSignInAsync"/>.</summary>
    public string ConnectionString(string database, string role = Bootstrap)
    {
        var connection = new NpgsqlConnectionStringBuilder
        {
            Host = _address.Host,
            Port = _address.Port,
            Database = database,
            Username = role,
        };
        if (_address.Password is { } password)
            connection.Password = password;
        return connection.ConnectionString;
    }

    /// <summary>Gives every role that may sign in the password that this server's connection strings carry; nothing to do on a socket.</summary>
    public async Task AllowSignInAsync(CancellationToken stop = default)
    {
        if (_address.Password is not { } password)
            return;
        await RunAsync($"""
            do $$ declare one name; begin
              for one in select rolname from pg_roles where rolcanlogin loop
                execute format('alter role %I password %L', one, '{password}');
              end loop;
            end $$
            """, stop);
    }

    /// <summary>Makes the database where it is missing.</summary>
    /// <param name="template">The database to copy, or null for an empty one.</param>
    public async Task EnsureDatabaseAsync(string database, string? template = null, CancellationToken stop = default)
    {
        try
        {
            await RunAsync($"create database {Quoted(database)} template {Quoted(template ?? "template0")}", stop);
        }
        catch (PostgresException exists) when (exists.SqlState is PostgresErrorCodes.DuplicateDatabase or PostgresErrorCodes.UniqueViolation)
        {
            // Two processes that start at once both look; one of them makes it.
        }
    }

    public async ValueTask DisposeAsync() => await _stop();

    private async Task RunAsync(string sql, CancellationToken stop)
    {
        await using var connection = new NpgsqlConnection(ConnectionString("postgres") + ";Pooling=false");
        await connection.OpenAsync(stop);
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync(stop);
    }

    private static string Quoted(string name) => "\"" + name.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
