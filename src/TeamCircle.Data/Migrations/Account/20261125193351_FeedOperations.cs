using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Account
{
    /// <inheritdoc />
    public partial class FeedOperations : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "operation_id",
                schema: "account",
                table: "feeds",
                type: "uuid",
                nullable: false,
                defaultValue: new Guid("00000000-0000-0000-0000-000000000000"));
        }
    }
}
