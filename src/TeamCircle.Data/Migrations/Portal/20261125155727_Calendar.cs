using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class Calendar : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AlterColumn<int>(
                name: "service_id",
                schema: "portal",
                table: "visits",
                type: "integer",
                nullable: true,
                oldClrType: typeof(int),
                oldType: "integer");

            migrationBuilder.AddColumn<int>(
                name: "away_id",
                schema: "portal",
                table: "visits",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<LocalTime>(
                name: "expected_start",
                schema: "portal",
                table: "visits",
                type: "time",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "kind",
                schema: "portal",
                table: "visits",
                type: "character varying(40)",
                maxLength: 40,
                nullable: false,
                defaultValue: "Service");

            migrationBuilder.AddColumn<int>(
                name: "place_id",
                schema: "portal",
                table: "visits",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "sequence",
                schema: "portal",
                table: "visits",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<bool>(
                name: "touched",
                schema: "portal",
                table: "visits",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<int>(
                name: "away_meeting_days",
                schema: "portal",
                table: "agencies",
                type: "integer",
                nullable: false,
                defaultValue: 10);

            migrationBuilder.CreateTable(
                name: "aways",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    reason = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    until_day = table.Column<LocalDate>(type: "date", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_aways", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_aways_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_aways_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_aways_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "open_hours",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    weekday = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_time = table.Column<LocalTime>(type: "time", nullable: false),
                    to_time = table.Column<LocalTime>(type: "time", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_open_hours", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_open_hours_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_open_hours_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "places",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_places_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_places_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "routines",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    object_cue = table.Column<string>(type: "text", nullable: true),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_routines", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_routines_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_routines_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routines_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "working_hours",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    weekday = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_time = table.Column<LocalTime>(type: "time", nullable: false),
                    to_time = table.Column<LocalTime>(type: "time", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_working_hours", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_working_hours_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_working_hours_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "learner_places",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_learner_places", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_learner_places_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_places_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_places_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "series",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    provider_id = table.Column<int>(type: "integer", nullable: false),
                    partner_id = table.Column<int>(type: "integer", nullable: true),
                    rule = table.Column<string>(type: "text", nullable: false),
                    first_day = table.Column<LocalDate>(type: "date", nullable: false),
                    ends_on = table.Column<LocalDate>(type: "date", nullable: true),
                    start_time = table.Column<LocalTime>(type: "time", nullable: false),
                    minutes = table.Column<int>(type: "integer", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: true),
                    format = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    group_no = table.Column<long>(type: "bigint", nullable: false, defaultValueSql: "nextval('portal.visit_numbers')"),
                    together_no = table.Column<long>(type: "bigint", nullable: false, defaultValueSql: "nextval('portal.visit_numbers')"),
                    written_to = table.Column<LocalDate>(type: "date", nullable: false),
                    continues_id = table.Column<int>(type: "integer", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_series", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_series_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_series_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_people_agency_id_partner_id",
                        columns: x => new { x.agency_id, x.partner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_people_agency_id_provider_id",
                        columns: x => new { x.agency_id, x.provider_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_series_agency_id_learner_id_continues_id",
                        columns: x => new { x.agency_id, x.learner_id, x.continues_id },
                        principalSchema: "portal",
                        principalTable: "series",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "travel_times",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    from_place_id = table.Column<int>(type: "integer", nullable: false),
                    to_place_id = table.Column<int>(type: "integer", nullable: false),
                    minutes = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_travel_times", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_travel_times_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_travel_times_places_agency_id_from_place_id",
                        columns: x => new { x.agency_id, x.from_place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_travel_times_places_agency_id_to_place_id",
                        columns: x => new { x.agency_id, x.to_place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "home_practice",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    weekday = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    on_day = table.Column<LocalDate>(type: "date", nullable: true),
                    who = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_home_practice", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_home_practice_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_home_practice_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_home_practice_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "visit_routines",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_visit_routines", x => new { x.agency_id, x.visit_id, x.routine_id });
                    table.ForeignKey(
                        name: "fk_visit_routines_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_routines_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_routines_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_routines_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "series_routines",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    series_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_series_routines", x => new { x.agency_id, x.series_id, x.routine_id });
                    table.ForeignKey(
                        name: "fk_series_routines_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_routines_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_routines_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_series_routines_series_agency_id_learner_id_series_id",
                        columns: x => new { x.agency_id, x.learner_id, x.series_id },
                        principalSchema: "portal",
                        principalTable: "series",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_away_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "away_id" },
                filter: "away_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_aways_agency_id_learner_id_from_day",
                schema: "portal",
                table: "aways",
                columns: new[] { "agency_id", "learner_id", "from_day" });

            migrationBuilder.CreateIndex(
                name: "ix_home_practice_agency_id_learner_id",
                schema: "portal",
                table: "home_practice",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_learner_places_agency_id_learner_id_kind",
                schema: "portal",
                table: "learner_places",
                columns: new[] { "agency_id", "learner_id", "kind" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_open_hours_agency_id_learner_id",
                schema: "portal",
                table: "open_hours",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_places_agency_id_code",
                schema: "portal",
                table: "places",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_routines_agency_id_learner_id_name",
                schema: "portal",
                table: "routines",
                columns: new[] { "agency_id", "learner_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_series_agency_id_learner_id",
                schema: "portal",
                table: "series",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_series_agency_id_provider_id",
                schema: "portal",
                table: "series",
                columns: new[] { "agency_id", "provider_id" });

            migrationBuilder.CreateIndex(
                name: "ix_travel_times_agency_id_from_place_id_to_place_id",
                schema: "portal",
                table: "travel_times",
                columns: new[] { "agency_id", "from_place_id", "to_place_id" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_working_hours_agency_id_person_id",
                schema: "portal",
                table: "working_hours",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.AddForeignKey(
                name: "fk_visits_aways_agency_id_learner_id_away_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "learner_id", "away_id" },
                principalSchema: "portal",
                principalTable: "aways",
                principalColumns: new[] { "agency_id", "learner_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_visits_places_agency_id_place_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "place_id" },
                principalSchema: "portal",
                principalTable: "places",
                principalColumns: new[] { "agency_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.AddForeignKey(
                name: "fk_visits_series_agency_id_learner_id_series_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "learner_id", "series_id" },
                principalSchema: "portal",
                principalTable: "series",
                principalColumns: new[] { "agency_id", "learner_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0004_calendar.sql");
        }
    }
}
