using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class TakeBackReasons : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "sessions",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "probes",
                type: "text",
                nullable: true);
        }
    }
}
