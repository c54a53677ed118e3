using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data;

/// <summary>
/// The way to a standby of the database, for long readings of a whole agency that may be some moments old and say so. A page that somebody comes to from
/// a save goes by <see cref="Portal"/>. Where no standby is named, or none answers, the primary is read.
/// </summary>
public sealed class StandbyReads
{
    private const int MostConnections = 20;

    /// <param name="primary">The way to the primary, for installations without a standby.</param>
    /// <param name="connection">Signs in as the application role, and prefers a standby among its hosts; null or empty where there is none.</param>
    public StandbyReads(Portal primary, string? connection)
    {
        Portal = string.IsNullOrWhiteSpace(connection) ? primary : new Portal(Factory(connection));
    }

    /// <summary>Opens transactions on the standby, with the same roles and walls.</summary>
    public Portal Portal { get; }

    /// <summary>How far the standby is that answers in this transaction.</summary>
    /// <returns>All that was saved before that moment is on it; what was saved later may not be. Null where the primary answers.</returns>
    public static async Task<Instant?> HeldUntilAsync(PortalDb db, CancellationToken stop)
    {
        // One that has seen no save since its start knows the time of the checkpoint from which it went on.
        var held = await db.Database.SqlQuery<Held>($"""
            select pg_is_in_recovery() as standby, coalesce(pg_last_xact_replay_timestamp(), (select checkpoint_time from pg_control_checkpoint())) as until
            """).SingleAsync(stop);
        return held.Standby ? held.Until : null;
    }

    private static IDbContextFactory<PortalDb> Factory(string connection) =>
        Contexts.PortalFactory(Pools.Of(connection, "TeamCircle reads", MostConnections).ConnectionString);

    private sealed record Held(bool Standby, Instant Until);
}
