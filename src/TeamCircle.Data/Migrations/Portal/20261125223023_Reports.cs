using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class Reports : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "reports",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    period_id = table.Column<int>(type: "integer", nullable: false),
                    edition = table.Column<int>(type: "integer", nullable: false),
                    begun_by = table.Column<int>(type: "integer", nullable: false),
                    facts = table.Column<string>(type: "jsonb", nullable: true),
                    hash = table.Column<string>(type: "text", nullable: false),
                    finished_by = table.Column<int>(type: "integer", nullable: true),
                    finished_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    finished_without = table.Column<string>(type: "text", nullable: true),
                    shared_by = table.Column<int>(type: "integer", nullable: true),
                    shared_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reports", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_reports_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_reports_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reports_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reports_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "report_goals",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    report_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    status = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    words = table.Column<string>(type: "text", nullable: true),
                    joined_by = table.Column<int>(type: "integer", nullable: true),
                    joined_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    reviewed_by = table.Column<int>(type: "integer", nullable: true),
                    reviewed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    review_word = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_report_goals", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_report_goals_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_goals_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_goals_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_goals_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "report_parts",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    report_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    written_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_report_parts", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_report_parts_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_parts_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_parts_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_parts_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_parts_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "report_signatures",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    report_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    credential = table.Column<string>(type: "text", nullable: false),
                    hash = table.Column<string>(type: "text", nullable: false),
                    signed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_report_signatures", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_report_signatures_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_signatures_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_signatures_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_report_signatures_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_report_goals_agency_id_learner_id",
                schema: "portal",
                table: "report_goals",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_report_goals_agency_id_report_id_goal_id",
                schema: "portal",
                table: "report_goals",
                columns: new[] { "agency_id", "report_id", "goal_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_report_parts_agency_id_report_id_goal_id_person_id",
                schema: "portal",
                table: "report_parts",
                columns: new[] { "agency_id", "report_id", "goal_id", "person_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_report_signatures_agency_id_report_id",
                schema: "portal",
                table: "report_signatures",
                columns: new[] { "agency_id", "report_id" });

            migrationBuilder.CreateIndex(
                name: "ix_reports_agency_id_learner_id_period_id",
                schema: "portal",
                table: "reports",
                columns: new[] { "agency_id", "learner_id", "period_id" },
                unique: true,
                filter: "live");

            migrationBuilder.SqlFile("0007_reports.sql");
        }
    }
}
