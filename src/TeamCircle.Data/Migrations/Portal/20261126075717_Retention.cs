using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    [OldestPortal("20261126000000_Begin")]
    public partial class Retention : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "destruction_id",
                schema: "portal",
                table: "changes",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "address",
                schema: "portal",
                table: "accesses",
                type: "text",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "retention_rules",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    years = table.Column<int>(type: "integer", nullable: true),
                    counted_from = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    notice_days = table.Column<int>(type: "integer", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    set_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_retention_rules_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_retention_rules_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_retention_rules_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "destructions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    up_to = table.Column<LocalDate>(type: "date", nullable: false),
                    rule_id = table.Column<int>(type: "integer", nullable: true),
                    asked_by = table.Column<string>(type: "text", nullable: true),
                    asked_on = table.Column<LocalDate>(type: "date", nullable: true),
                    found = table.Column<int>(type: "integer", nullable: false),
                    proposed_on = table.Column<LocalDate>(type: "date", nullable: false),
                    notice_days = table.Column<int>(type: "integer", nullable: false),
                    notice_on = table.Column<LocalDate>(type: "date", nullable: true),
                    to_whom = table.Column<string>(type: "text", nullable: true),
                    way = table.Column<string>(type: "text", nullable: true),
                    wait_until = table.Column<LocalDate>(type: "date", nullable: true),
                    agreed_by = table.Column<int>(type: "integer", nullable: true),
                    agreed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    stopped_by = table.Column<int>(type: "integer", nullable: true),
                    stopped_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    stopped_why = table.Column<string>(type: "text", nullable: true),
                    destroyed_by = table.Column<int>(type: "integer", nullable: true),
                    destroyed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    destroyed = table.Column<int>(type: "integer", nullable: true),
                    emptied = table.Column<int>(type: "integer", nullable: true),
                    emptied_hash = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_destructions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_destructions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_destructions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_destructions_people_agency_id_agreed_by",
                        columns: x => new { x.agency_id, x.agreed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_destructions_people_agency_id_destroyed_by",
                        columns: x => new { x.agency_id, x.destroyed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_destructions_people_agency_id_stopped_by",
                        columns: x => new { x.agency_id, x.stopped_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_destructions_retention_rules_agency_id_rule_id",
                        columns: x => new { x.agency_id, x.rule_id },
                        principalSchema: "portal",
                        principalTable: "retention_rules",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_changes_agency_id_destruction_id",
                schema: "portal",
                table: "changes",
                columns: new[] { "agency_id", "destruction_id" },
                filter: "destruction_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_destructions_agency_id_learner_id_kind",
                schema: "portal",
                table: "destructions",
                columns: new[] { "agency_id", "learner_id", "kind" },
                unique: true,
                filter: "destroyed_at is null and stopped_at is null");

            migrationBuilder.SqlFile("0018_retention.sql");
        }
    }
}
