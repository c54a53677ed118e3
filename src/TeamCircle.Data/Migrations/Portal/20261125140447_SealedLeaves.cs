using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class SealedLeaves : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<byte[]>(
                name: "leaves",
                schema: "portal",
                table: "blocks",
                type: "bytea",
                nullable: false,
                defaultValue: new byte[0]);
        }
    }
}
