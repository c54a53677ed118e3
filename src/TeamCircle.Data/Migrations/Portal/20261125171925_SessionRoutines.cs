using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class SessionRoutines : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int[]>(
                name: "routines",
                schema: "portal",
                table: "sessions",
                type: "integer[]",
                nullable: false,
                defaultValueSql: "'{}'");
        }
    }
}
