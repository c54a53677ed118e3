namespace TeamCircle.Data;

/// <summary>SQL that is sent as it is, where Entity Framework would look for places of values in braces.</summary>
internal static class PlainSql
{
    public static string Of(string sql) => sql.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal);
}
