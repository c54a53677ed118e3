using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class RoutineCards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "ended_by",
                schema: "portal",
                table: "routines",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<LocalDate>(
                name: "ended_on",
                schema: "portal",
                table: "routines",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "ended_reason",
                schema: "portal",
                table: "routines",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "review_months",
                schema: "portal",
                table: "agencies",
                type: "integer",
                nullable: false,
                defaultValue: 12);

            migrationBuilder.CreateTable(
                name: "routine_pictures",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    jpeg = table.Column<byte[]>(type: "bytea", nullable: false),
                    width = table.Column<int>(type: "integer", nullable: false),
                    height = table.Column<int>(type: "integer", nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_routine_pictures", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_routine_pictures_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_pictures_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_pictures_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "routine_versions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    content = table.Column<string>(type: "jsonb", nullable: false),
                    written_by = table.Column<int>(type: "integer", nullable: false),
                    written_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_routine_versions", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_routine_versions_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_routine_versions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_versions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_versions_people_agency_id_written_by",
                        columns: x => new { x.agency_id, x.written_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_versions_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "routine_reviews",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    version_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    discipline = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    reviewed_on = table.Column<LocalDate>(type: "date", nullable: false),
                    note = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_routine_reviews", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_routine_reviews_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_reviews_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_reviews_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routine_reviews_routine_versions_agency_id_learner_id_versi",
                        columns: x => new { x.agency_id, x.learner_id, x.version_id },
                        principalSchema: "portal",
                        principalTable: "routine_versions",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_routine_pictures_agency_id_routine_id",
                schema: "portal",
                table: "routine_pictures",
                columns: new[] { "agency_id", "routine_id" });

            migrationBuilder.CreateIndex(
                name: "ix_routine_reviews_agency_id_version_id",
                schema: "portal",
                table: "routine_reviews",
                columns: new[] { "agency_id", "version_id" });

            migrationBuilder.CreateIndex(
                name: "ix_routine_versions_agency_id_learner_id",
                schema: "portal",
                table: "routine_versions",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_routine_versions_agency_id_routine_id_number",
                schema: "portal",
                table: "routine_versions",
                columns: new[] { "agency_id", "routine_id", "number" },
                unique: true);

            migrationBuilder.AddForeignKey(
                name: "fk_routines_people_agency_id_ended_by",
                schema: "portal",
                table: "routines",
                columns: new[] { "agency_id", "ended_by" },
                principalSchema: "portal",
                principalTable: "people",
                principalColumns: new[] { "agency_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0006_routine_cards.sql");
        }
    }
}
