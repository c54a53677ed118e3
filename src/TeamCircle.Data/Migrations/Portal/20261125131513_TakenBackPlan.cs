using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class TakenBackPlan : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "ix_services_agency_id_code",
                schema: "portal",
                table: "services");

            migrationBuilder.DropIndex(
                name: "ix_service_versions_agency_id_code",
                schema: "portal",
                table: "service_versions");

            migrationBuilder.DropIndex(
                name: "ix_service_versions_agency_id_service_id_from_day",
                schema: "portal",
                table: "service_versions");

            migrationBuilder.DropIndex(
                name: "ix_probe_commitments_agency_id_goal_id_from_day",
                schema: "portal",
                table: "probe_commitments");

            migrationBuilder.DropIndex(
                name: "ix_goals_agency_id_code",
                schema: "portal",
                table: "goals");

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "services",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "services",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "services",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "service_versions",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "service_versions",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "probe_commitments",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "probe_commitments",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "policies",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "policies",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "live",
                schema: "portal",
                table: "goals",
                type: "boolean",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<Instant>(
                name: "recorded_at",
                schema: "portal",
                table: "goals",
                type: "timestamp with time zone",
                nullable: false,
                defaultValueSql: "now()");

            migrationBuilder.AddColumn<string>(
                name: "taken_back_reason",
                schema: "portal",
                table: "goals",
                type: "text",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_services_agency_id_code",
                schema: "portal",
                table: "services",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_service_versions_agency_id_code",
                schema: "portal",
                table: "service_versions",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_service_versions_agency_id_service_id_from_day",
                schema: "portal",
                table: "service_versions",
                columns: new[] { "agency_id", "service_id", "from_day" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_probe_commitments_agency_id_goal_id_from_day",
                schema: "portal",
                table: "probe_commitments",
                columns: new[] { "agency_id", "goal_id", "from_day" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_goals_agency_id_code",
                schema: "portal",
                table: "goals",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");
        }
    }
}
