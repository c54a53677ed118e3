using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class GoalTerms : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "place",
                schema: "portal",
                table: "probes",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "position",
                schema: "portal",
                table: "probes",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "side",
                schema: "portal",
                table: "probes",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "state",
                schema: "portal",
                table: "probes",
                type: "character varying(40)",
                maxLength: 40,
                nullable: true);

            migrationBuilder.AddColumn<decimal>(
                name: "chance",
                schema: "portal",
                table: "goals",
                type: "numeric",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "conditions",
                schema: "portal",
                table: "goals",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "counts",
                schema: "portal",
                table: "goals",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Probe");

            migrationBuilder.AddColumn<int>(
                name: "criterion_fewest",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "criterion_people",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "criterion_places",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "first_upkeep",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true,
                defaultValue: 2);

            migrationBuilder.AddColumn<int>(
                name: "in_a_row",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: false,
                defaultValue: 4);

            migrationBuilder.AddColumn<string>(
                name: "present_conditions",
                schema: "portal",
                table: "goals",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "present_day",
                schema: "portal",
                table: "goals",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "present_source",
                schema: "portal",
                table: "goals",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "second_upkeep",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true,
                defaultValue: 4);

            migrationBuilder.AddColumn<LocalDate>(
                name: "teaching_from",
                schema: "portal",
                table: "goals",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "third_upkeep",
                schema: "portal",
                table: "goals",
                type: "integer",
                nullable: true,
                defaultValue: 8);

            migrationBuilder.CreateTable(
                name: "goal_changes",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_goal_changes", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_goal_changes_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_changes_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_changes_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_changes_people_agency_id_recorded_by",
                        columns: x => new { x.agency_id, x.recorded_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_goal_changes_agency_id_goal_id",
                schema: "portal",
                table: "goal_changes",
                columns: new[] { "agency_id", "goal_id" });

            migrationBuilder.SqlFile("0006_goal_terms.sql");
        }
    }
}
