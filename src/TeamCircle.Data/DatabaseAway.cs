using Npgsql;

namespace TeamCircle.Data;

/// <summary>Tells a database that could not be asked from one that refused.</summary>
public static class DatabaseAway
{
    /// <summary>idle_in_transaction_session_timeout: this portal stood still, and the database went on without it.</summary>
    private const string StoodStill = "25P03";

    /// <summary>Whether it was away, stopping, full or busy: then the same may well be saved the next time, and what was sent says nothing about it.</summary>
    public static bool Is(Exception fault) => fault switch
    {
        PostgresException { SqlState: StoodStill } => true,
        PostgresException refused => refused.IsTransient, // else what was sent does not fit, and never will
        NpgsqlException or TimeoutException => true,
        { InnerException: { } inner } => Is(inner),
        _ => false,
    };
}
