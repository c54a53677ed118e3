using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;

namespace TeamCircle.Data;

/// <summary>Rows that nobody else changes until the transaction ends.</summary>
public static class LockedRows
{
    /// <summary>Reads rows of one table and locks them.</summary>
    /// <param name="which">What follows <c>where</c>: names columns as the database does, takes its values as parameters, and may end with an order and a limit.</param>
    /// <param name="orSkipped">Passes over rows that somebody else has locked, rather than wait for them.</param>
    /// <remarks>Its columns are named one by one: a statement that was prepared as <c>select *</c> fails where a migration adds a column meanwhile.</remarks>
    public static IQueryable<T> Locked<T>(this PortalDb db, FormattableString which, bool orSkipped = false) where T : class
    {
        var type = db.Model.FindEntityType(typeof(T))!;
        var table = StoreObjectIdentifier.Create(type, StoreObjectType.Table)!.Value;
        var columns = string.Join(", ", type.GetProperties().Select(p => p.GetColumnName(table)));
        var query = $"select {columns} from {table.Schema}.{table.Name} where {which.Format} for update{(orSkipped ? " skip locked" : "")}";
        return db.Set<T>().FromSql(FormattableStringFactory.Create(query, which.GetArguments()));
    }
}
