using System.Data.Common;
using Npgsql;

namespace TeamCircle.Data;

/// <summary>How connections to the database are kept from one use to the next.</summary>
internal static class Pools
{
    /// <summary>How many statements a connection keeps prepared: those that were used last.</summary>
    private const int KeptStatements = 200;

    private static readonly string[] KeptKeys = ["Max Auto Prepare", "MaxAutoPrepare"];

    /// <summary>A pool whose connections come back as they were, with what they have prepared.</summary>
    /// <param name="name">What the database calls them.</param>
    /// <param name="most">The most connections, where <paramref name="connection"/> does not ask for fewer.</param>
    /// <remarks>Role and settings belong to a transaction, so nothing is there to be cleared; cleared by DISCARD ALL a connection would also lose what the database
    /// had planned of triggers, keys and policies (docs/decisions/0040-connections-as-they-were.md). Whoever stands a pooler between that shares
    /// connections by transaction and knows no prepared statements says <c>Max Auto Prepare=0</c> (docs/decisions/0042-prepared-statements.md).</remarks>
    public static NpgsqlConnectionStringBuilder Of(string connection, string name, int most)
    {
        var pool = new NpgsqlConnectionStringBuilder(connection) { ApplicationName = name, NoResetOnClose = true };
        pool.MaxPoolSize = Math.Min(pool.MaxPoolSize, most);
        var said = new DbConnectionStringBuilder { ConnectionString = connection };
        if (!KeptKeys.Any(said.ContainsKey))
            pool.MaxAutoPrepare = KeptStatements;
        return pool;
    }
}
