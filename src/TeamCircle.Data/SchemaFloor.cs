using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql;
using TeamCircle.Data.Migrations;

namespace TeamCircle.Data;

/// <summary>
/// The oldest portal that may serve on a schema, stated in the schema itself: function <c>oldest_portal()</c> gives the migration that a
/// portal must know.
/// </summary>
internal static class SchemaFloor
{
    /// <summary>States in the database what its migrations demand, up to <paramref name="last"/>, or up to the newest where that is null.</summary>
    public static async Task StateAsync(DbContext db, string? last, CancellationToken stop)
    {
        var schema = db.Model.GetDefaultSchema();
        var floor = Of(db.GetService<IMigrationsAssembly>().Migrations.Where(m => last is null || string.CompareOrdinal(m.Key, last) <= 0));
        // One at a time: of two at once the server refuses one.
        var sql = $"""
            select pg_advisory_xact_lock(7202611);
            create or replace function {schema}.oldest_portal() returns text language sql immutable set search_path = pg_catalog as $$ select '{floor}' $$;
            revoke all on function {schema}.oldest_portal() from public;
            grant execute on function {schema}.oldest_portal() to {Migrate.App};
            """;
        await db.Database.ExecuteSqlRawAsync(sql, stop);
    }

    /// <summary>Whether a portal with these migrations may serve on a newer schema. False where the schema states nothing.</summary>
    public static async Task<bool> AdmitsAsync(DbContext db, HashSet<string> known, CancellationToken stop)
    {
        var sql = $"select {db.Model.GetDefaultSchema()}.oldest_portal() as \"Value\"";
        try
        {
            return known.Contains(await db.Database.SqlQueryRaw<string>(sql).SingleAsync(stop));
        }
        catch (PostgresException unstated) when (unstated.SqlState == PostgresErrorCodes.UndefinedFunction)
        {
            return false;
        }
    }

    /// <summary>The newest of what the migrations demand, each of itself where it says nothing.</summary>
    private static string Of(IEnumerable<KeyValuePair<string, TypeInfo>> migrations) =>
        migrations.Select(m => m.Value.GetCustomAttribute<OldestPortalAttribute>()?.Migration ?? m.Key).Max(StringComparer.Ordinal)!;
}
