using Microsoft.EntityFrameworkCore.Migrations;

namespace TeamCircle.Data.Migrations;

/// <summary>Runs a file of Migrations/Sql; a file belongs to one migration and never changes once released.</summary>
internal static class MigrationSql
{
    public static void SqlFile(this MigrationBuilder migration, string name)
    {
        var assembly = typeof(MigrationSql).Assembly;
        using var stream = assembly.GetManifestResourceStream($"TeamCircle.Data.Migrations.Sql.{name}")
            ?? throw new InvalidOperationException($"The migration file {name} is not in the assembly.");
        using var reader = new StreamReader(stream);
        migration.Sql(reader.ReadToEnd());
    }
}
