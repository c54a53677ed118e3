using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata;
using NodaTime.Serialization.SystemTextJson;
using NodaTime.Text;
using NpgsqlTypes;

namespace TeamCircle.Data.Import;

/// <summary>
/// Adds many rows of one table by one statement, as EF Core maps them, so that the triggers of dated facts run once. COPY
/// would be the way, but PostgreSQL refuses it under row-level security.
/// </summary>
internal static class AddRows
{
    private const int Batch = 5000;
    private static readonly JsonSerializerOptions Json = new JsonSerializerOptions().ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    /// <remarks>A column for which the database has a value of its own is left to it unless the rows have values.</remarks>
    public static async Task RunAsync<T>(PortalDb db, IReadOnlyList<T> rows, CancellationToken stop) where T : class
    {
        if (rows.Count == 0)
            return;
        var type = db.Model.FindEntityType(typeof(T))!;
        var columns = type.GetProperties().Where(p => !IsLeftToDatabase(p, rows)).ToList();
        var names = string.Join(", ", columns.Select(c => c.GetColumnName()));
        var table = $"{type.GetSchema()}.{type.GetTableName()}";
        var sql = $"insert into {table} ({names}) select {names} from jsonb_populate_recordset(null::{table}, {{0}}::jsonb)";
        foreach (var batch in rows.Chunk(Batch))
        {
            var json = batch.Select(row => columns.ToDictionary(c => c.GetColumnName(), c => Value(c, row)));
            await db.Database.ExecuteSqlRawAsync(sql, [JsonSerializer.Serialize(json, Json)], stop);
        }
    }

    private static bool IsLeftToDatabase<T>(IProperty property, IReadOnlyList<T> rows) where T : class =>
        (property.GetDefaultValueSql() is not null || property.ValueGenerated != ValueGenerated.Never)
        && Equals(property.PropertyInfo!.GetValue(rows[0]), property.Sentinel);

    private static object? Value(IProperty property, object row)
    {
        var value = property.PropertyInfo!.GetValue(row);
        if (value is NpgsqlRange<Instant> range)
            return $"[{InstantPattern.ExtendedIso.Format(range.LowerBound)},{InstantPattern.ExtendedIso.Format(range.UpperBound)})";
        return value is not null && property.GetTypeMapping().Converter is { } converter && property.ClrType.IsEnumOrNullable()
            ? converter.ConvertToProvider(value)
            : value;
    }

    private static bool IsEnumOrNullable(this Type type) => (Nullable.GetUnderlyingType(type) ?? type).IsEnum;
}
