using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class TakenBack : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_terms_agency_id_name",
                schema: "portal",
                table: "terms");

            migrationBuilder.DropIndex(
                name: "ix_periods_agency_id_name",
                schema: "portal",
                table: "periods");

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "terms",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "terms",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "terms",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "continues_id",
                schema: "portal",
                table: "services",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "end_reason",
                schema: "portal",
                table: "services",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "relations",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "relations",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "relations",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "periods",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "periods",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "periods",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "objectives",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "objectives",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "objectives",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "goal_owners",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "goal_owners",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "goal_owners",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "closures",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<long>(
                name: "horizon",
                schema: "portal",
                table: "blocks",
                type: "bigint",
                nullable: false,
                defaultValue: 0L);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "assignments",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "assignments",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "assignments",
                type: "text",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_terms_agency_id_name",
                schema: "portal",
                table: "terms",
                columns: new[] { "agency_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_periods_agency_id_name",
                schema: "portal",
                table: "periods",
                columns: new[] { "agency_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_changes_agency_id_tx",
                schema: "portal",
                table: "changes",
                columns: new[] { "agency_id", "tx" });

            migrationBuilder.AddForeignKey(
                name: "fk_services_services_agency_id_learner_id_continues_id",
                schema: "portal",
                table: "services",
                columns: new[] { "agency_id", "learner_id", "continues_id" },
                principalSchema: "portal",
                principalTable: "services",
                principalColumns: new[] { "agency_id", "learner_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0002_taken_back.sql");
        }
    }
}
