using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class Holds : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "hold_contact_hours",
                schema: "portal",
                table: "agencies",
                type: "integer",
                nullable: false,
                defaultValue: 24);

            migrationBuilder.CreateTable(
                name: "cautions_seen",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    mark = table.Column<string>(type: "text", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    seen_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_cautions_seen", x => new { x.agency_id, x.person_id, x.routine_id, x.mark });
                    table.ForeignKey(
                        name: "fk_cautions_seen_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_cautions_seen_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_cautions_seen_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_cautions_seen_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "holds",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: true),
                    step_key = table.Column<string>(type: "text", nullable: true),
                    teach_part = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    reason = table.Column<string>(type: "text", nullable: false),
                    told_as = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    told_by = table.Column<string>(type: "text", nullable: true),
                    told_on = table.Column<LocalDate>(type: "date", nullable: true),
                    told_time = table.Column<LocalTime>(type: "time", nullable: true),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    set_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_by = table.Column<int>(type: "integer", nullable: true),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    ended_word = table.Column<string>(type: "text", nullable: true),
                    agreed_by = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_holds", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_holds_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_holds_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_holds_people_agency_id_ended_by",
                        columns: x => new { x.agency_id, x.ended_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_holds_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_holds_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_holds_agency_id_learner_id",
                schema: "portal",
                table: "holds",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.SqlFile("0009_holds.sql");
        }
    }
}
