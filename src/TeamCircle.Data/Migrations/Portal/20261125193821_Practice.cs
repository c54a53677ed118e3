using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class Practice : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "practice_id",
                schema: "portal",
                table: "probes",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "devices",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    store = table.Column<string>(type: "text", nullable: false),
                    key = table.Column<string>(type: "text", nullable: false),
                    made_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    last_contact = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    revoked_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    revoked_by = table.Column<int>(type: "integer", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_devices_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_devices_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_devices_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "practices",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    version_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: true),
                    provider_id = table.Column<int>(type: "integer", nullable: false),
                    entry = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    started_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    record = table.Column<string>(type: "jsonb", nullable: false),
                    skew_ms = table.Column<int>(type: "integer", nullable: true),
                    device_id = table.Column<Guid>(type: "uuid", nullable: true),
                    observes = table.Column<Guid>(type: "uuid", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_practices", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_practices_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_practices_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_devices_agency_id_device_id",
                        columns: x => new { x.agency_id, x.device_id },
                        principalSchema: "portal",
                        principalTable: "devices",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_people_agency_id_provider_id",
                        columns: x => new { x.agency_id, x.provider_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_practices_agency_id_learner_id_observes",
                        columns: x => new { x.agency_id, x.learner_id, x.observes },
                        principalSchema: "portal",
                        principalTable: "practices",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_routine_versions_agency_id_learner_id_version_id",
                        columns: x => new { x.agency_id, x.learner_id, x.version_id },
                        principalSchema: "portal",
                        principalTable: "routine_versions",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_practices_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "set_asides",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    operation_id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: true),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    body = table.Column<string>(type: "text", nullable: false),
                    made = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    skew_ms = table.Column<int>(type: "integer", nullable: true),
                    device_id = table.Column<Guid>(type: "uuid", nullable: true),
                    why = table.Column<string>(type: "text", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    closed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    closed_by = table.Column<int>(type: "integer", nullable: true),
                    closed_why = table.Column<string>(type: "text", nullable: true),
                    entered_by = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_set_asides", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_set_asides_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_set_asides_devices_agency_id_device_id",
                        columns: x => new { x.agency_id, x.device_id },
                        principalSchema: "portal",
                        principalTable: "devices",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_set_asides_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_set_asides_operations_agency_id_person_id_operation_id",
                        columns: x => new { x.agency_id, x.person_id, x.operation_id },
                        principalSchema: "portal",
                        principalTable: "operations",
                        principalColumns: new[] { "agency_id", "person_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "trials",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    practice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    step = table.Column<string>(type: "text", nullable: false),
                    goals = table.Column<int[]>(type: "integer[]", nullable: false),
                    ending = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    prompts_needed = table.Column<int>(type: "integer", nullable: true),
                    response = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    time_to_respond = table.Column<int>(type: "integer", nullable: true),
                    completed = table.Column<int>(type: "integer", nullable: true),
                    censored_at = table.Column<int>(type: "integer", nullable: true),
                    waited = table.Column<int>(type: "integer", nullable: true),
                    wait_kept = table.Column<bool>(type: "boolean", nullable: true),
                    at_once = table.Column<bool>(type: "boolean", nullable: false),
                    counts = table.Column<bool>(type: "boolean", nullable: false),
                    remembered = table.Column<bool>(type: "boolean", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_trials", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_trials_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_trials_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_trials_practices_agency_id_learner_id_practice_id",
                        columns: x => new { x.agency_id, x.learner_id, x.practice_id },
                        principalSchema: "portal",
                        principalTable: "practices",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_probes_agency_id_practice_id_goal_id",
                schema: "portal",
                table: "probes",
                columns: new[] { "agency_id", "practice_id", "goal_id" },
                unique: true,
                filter: "practice_id is not null and live");

            migrationBuilder.CreateIndex(
                name: "ix_devices_agency_id_person_id",
                schema: "portal",
                table: "devices",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_learner_id_on_day",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_routine_id_started_at",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "routine_id", "started_at" });

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_visit_id",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "visit_id" },
                filter: "visit_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_set_asides_agency_id_learner_id",
                schema: "portal",
                table: "set_asides",
                columns: new[] { "agency_id", "learner_id" },
                filter: "closed_at is null");

            migrationBuilder.CreateIndex(
                name: "ix_set_asides_agency_id_person_id_operation_id",
                schema: "portal",
                table: "set_asides",
                columns: new[] { "agency_id", "person_id", "operation_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_trials_agency_id_learner_id_step",
                schema: "portal",
                table: "trials",
                columns: new[] { "agency_id", "learner_id", "step" });

            migrationBuilder.CreateIndex(
                name: "ix_trials_agency_id_practice_id",
                schema: "portal",
                table: "trials",
                columns: new[] { "agency_id", "practice_id" });

            migrationBuilder.AddForeignKey(
                name: "fk_probes_practices_agency_id_learner_id_practice_id",
                schema: "portal",
                table: "probes",
                columns: new[] { "agency_id", "learner_id", "practice_id" },
                principalSchema: "portal",
                principalTable: "practices",
                principalColumns: new[] { "agency_id", "learner_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0007_practice.sql");
        }
    }
}
