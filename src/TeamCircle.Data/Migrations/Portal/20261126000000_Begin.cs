using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;
using NpgsqlTypes;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class Begin : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.EnsureSchema(
                name: "portal");

            migrationBuilder.CreateSequence(
                name: "visit_numbers",
                schema: "portal");

            migrationBuilder.CreateTable(
                name: "agencies",
                schema: "portal",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    time_zone = table.Column<string>(type: "text", nullable: false),
                    weekdays = table.Column<int>(type: "integer", nullable: false),
                    week_start = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    away_meeting_days = table.Column<int>(type: "integer", nullable: false, defaultValue: 10),
                    review_months = table.Column<int>(type: "integer", nullable: false, defaultValue: 12),
                    hold_contact_hours = table.Column<int>(type: "integer", nullable: false, defaultValue: 24),
                    family_tells = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    family_tells_why = table.Column<string>(type: "text", nullable: true),
                    home_taps = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    home_taps_why = table.Column<string>(type: "text", nullable: true),
                    distance_unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false, defaultValue: "Mile"),
                    majority_age = table.Column<int>(type: "integer", nullable: false, defaultValue: 18),
                    majority_pauses = table.Column<bool>(type: "boolean", nullable: false, defaultValue: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_agencies", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "accesses",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "clock_timestamp()"),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    ground = table.Column<string>(type: "text", nullable: false),
                    page = table.Column<string>(type: "text", nullable: false),
                    learner_ids = table.Column<int[]>(type: "integer[]", nullable: false),
                    whole_agency = table.Column<bool>(type: "boolean", nullable: false),
                    refused = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_accesses", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_accesses_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "blocks",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    sealed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    changes = table.Column<int>(type: "integer", nullable: false),
                    change_ids = table.Column<long[]>(type: "bigint[]", nullable: false),
                    leaves = table.Column<byte[]>(type: "bytea", nullable: false),
                    root = table.Column<byte[]>(type: "bytea", nullable: false),
                    previous = table.Column<byte[]>(type: "bytea", nullable: false),
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    code = table.Column<byte[]>(type: "bytea", nullable: false),
                    horizon = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_blocks", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_blocks_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "changes",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    tx = table.Column<long>(type: "bigint", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    ground = table.Column<string>(type: "text", nullable: false),
                    operation_id = table.Column<Guid>(type: "uuid", nullable: true),
                    learner_id = table.Column<int>(type: "integer", nullable: true),
                    table_name = table.Column<string>(type: "text", nullable: false),
                    row_key = table.Column<string>(type: "text", nullable: false),
                    act = table.Column<string>(type: "text", nullable: false),
                    before = table.Column<string>(type: "jsonb", nullable: true),
                    after = table.Column<string>(type: "jsonb", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_changes", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_changes_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "closures",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: true),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_closures_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_closures_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "job_runs",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    job = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    started_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    failed = table.Column<bool>(type: "boolean", nullable: false),
                    result = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_job_runs", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_job_runs_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "operations",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    request_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    state = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    result = table.Column<string>(type: "jsonb", nullable: true),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_operations", x => new { x.agency_id, x.person_id, x.id });
                    table.ForeignKey(
                        name: "fk_operations_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "people",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    email = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    credential = table.Column<string>(type: "text", nullable: true),
                    most_minutes_a_day = table.Column<int>(type: "integer", nullable: true),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_people_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_people_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "periods",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    name = table.Column<string>(type: "text", nullable: false),
                    start_day = table.Column<LocalDate>(type: "date", nullable: false),
                    end_day = table.Column<LocalDate>(type: "date", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_periods_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_periods_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
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
                name: "policies",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    short_window = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    surplus = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    tolerance_percent = table.Column<int>(type: "integer", nullable: false),
                    session_share = table.Column<int>(type: "integer", nullable: false),
                    policy_words = table.Column<string>(type: "text", nullable: true),
                    written_in = table.Column<string>(type: "text", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    second_person_id = table.Column<int>(type: "integer", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_policies", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_policies_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "terms",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    name = table.Column<string>(type: "text", nullable: false),
                    first_day = table.Column<LocalDate>(type: "date", nullable: false),
                    last_day = table.Column<LocalDate>(type: "date", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_terms", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_terms_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

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
                name: "imports",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    files = table.Column<string>(type: "jsonb", nullable: false),
                    stored = table.Column<int>(type: "integer", nullable: false),
                    refused = table.Column<int>(type: "integer", nullable: false),
                    tx = table.Column<long>(type: "bigint", nullable: false, defaultValueSql: "pg_current_xact_id()::text::bigint"),
                    undone_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    undone_tx = table.Column<long>(type: "bigint", nullable: true),
                    undone_by = table.Column<int>(type: "integer", nullable: true),
                    undone_reason = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_imports_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_imports_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_imports_people_agency_id_undone_by",
                        columns: x => new { x.agency_id, x.undone_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "last_days",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    day = table.Column<LocalDate>(type: "date", nullable: false),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    operation = table.Column<Guid>(type: "uuid", nullable: false),
                    finished_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    finished_by = table.Column<int>(type: "integer", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_last_days", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_last_days_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_last_days_people_agency_id_finished_by",
                        columns: x => new { x.agency_id, x.finished_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_last_days_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_last_days_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "learners",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    code = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    legal_name = table.Column<string>(type: "text", nullable: true),
                    most_minutes_a_day = table.Column<int>(type: "integer", nullable: false),
                    sending_district = table.Column<string>(type: "text", nullable: true),
                    joined_to = table.Column<int>(type: "integer", nullable: true),
                    joined_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    joined_by = table.Column<int>(type: "integer", nullable: true),
                    joined_reason = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_learners_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_learners_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learners_learners_agency_id_joined_to",
                        columns: x => new { x.agency_id, x.joined_to },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learners_people_agency_id_joined_by",
                        columns: x => new { x.agency_id, x.joined_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "licences",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    until_day = table.Column<LocalDate>(type: "date", nullable: false),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_licences", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_licences_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_licences_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_licences_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "mail_choices",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    time_zone = table.Column<string>(type: "text", nullable: true),
                    language = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    visits_and_minutes = table.Column<bool>(type: "boolean", nullable: false),
                    waiting_for_your_decision = table.Column<bool>(type: "boolean", nullable: false),
                    new_summary = table.Column<bool>(type: "boolean", nullable: false),
                    visit_changed = table.Column<bool>(type: "boolean", nullable: false),
                    days = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<LocalTime>(type: "time", nullable: false),
                    quiet_from = table.Column<LocalTime>(type: "time", nullable: false),
                    quiet_until = table.Column<LocalTime>(type: "time", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_mail_choices", x => new { x.agency_id, x.person_id });
                    table.ForeignKey(
                        name: "fk_mail_choices_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_mail_choices_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "person_disciplines",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    discipline = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_disciplines", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_person_disciplines_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_person_disciplines_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "person_names",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    until_day = table.Column<LocalDate>(type: "date", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    changed_by = table.Column<int>(type: "integer", nullable: false),
                    changed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_names", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_person_names_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_person_names_people_agency_id_changed_by",
                        columns: x => new { x.agency_id, x.changed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_person_names_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "person_roles",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    role = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_person_roles", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_person_roles_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_person_roles_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
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
                name: "samples",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    period_id = table.Column<int>(type: "integer", nullable: false),
                    discipline = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    seed = table.Column<long>(type: "bigint", nullable: false),
                    population = table.Column<int>(type: "integer", nullable: false),
                    drawn_by = table.Column<int>(type: "integer", nullable: false),
                    drawn_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_samples_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_samples_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_samples_people_agency_id_drawn_by",
                        columns: x => new { x.agency_id, x.drawn_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_samples_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "place_addresses",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: false),
                    address = table.Column<string>(type: "text", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place_addresses", x => new { x.agency_id, x.place_id });
                    table.ForeignKey(
                        name: "fk_place_addresses_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_place_addresses_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "road_starts",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_road_starts", x => new { x.agency_id, x.person_id });
                    table.ForeignKey(
                        name: "fk_road_starts_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_road_starts_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_road_starts_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
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
                    tenths = table.Column<int>(type: "integer", nullable: true),
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
                name: "import_additions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    import_id = table.Column<int>(type: "integer", nullable: false),
                    table_name = table.Column<string>(type: "text", nullable: false),
                    row_keys = table.Column<string[]>(type: "text[]", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_import_additions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_import_additions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_import_additions_imports_agency_id_import_id",
                        columns: x => new { x.agency_id, x.import_id },
                        principalSchema: "portal",
                        principalTable: "imports",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

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
                name: "births",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    born_on = table.Column<LocalDate>(type: "date", nullable: false),
                    told_on = table.Column<LocalDate>(type: "date", nullable: true),
                    told_words = table.Column<string>(type: "text", nullable: true),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_births", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_births_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_births_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_births_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "bound_dates",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: true),
                    due_on = table.Column<LocalDate>(type: "date", nullable: false),
                    rests_on = table.Column<string>(type: "text", nullable: false),
                    note = table.Column<string>(type: "text", nullable: true),
                    repeat_months = table.Column<int>(type: "integer", nullable: true),
                    done_on = table.Column<LocalDate>(type: "date", nullable: true),
                    done_by = table.Column<int>(type: "integer", nullable: true),
                    done_word = table.Column<string>(type: "text", nullable: true),
                    follows_id = table.Column<int>(type: "integer", nullable: true),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_bound_dates", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_bound_dates_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_bound_dates_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_bound_dates_bound_dates_agency_id_learner_id_follows_id",
                        columns: x => new { x.agency_id, x.learner_id, x.follows_id },
                        principalSchema: "portal",
                        principalTable: "bound_dates",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_bound_dates_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_bound_dates_people_agency_id_done_by",
                        columns: x => new { x.agency_id, x.done_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_bound_dates_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "extended_years",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    decide_by = table.Column<LocalDate>(type: "date", nullable: false),
                    answer = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    decided_on = table.Column<LocalDate>(type: "date", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    took_part = table.Column<string>(type: "text", nullable: true),
                    family_told_on = table.Column<LocalDate>(type: "date", nullable: true),
                    goals = table.Column<int[]>(type: "integer[]", nullable: false),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_extended_years", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_extended_years_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_extended_years_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_extended_years_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "family_summaries",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    edition = table.Column<int>(type: "integer", nullable: false),
                    corrects_id = table.Column<int>(type: "integer", nullable: true),
                    corrects_why = table.Column<string>(type: "text", nullable: true),
                    first_day = table.Column<LocalDate>(type: "date", nullable: false),
                    last_day = table.Column<LocalDate>(type: "date", nullable: false),
                    begun_by = table.Column<int>(type: "integer", nullable: false),
                    content = table.Column<string>(type: "jsonb", nullable: false),
                    published_by = table.Column<int>(type: "integer", nullable: true),
                    published_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    withdrawn_by = table.Column<int>(type: "integer", nullable: true),
                    withdrawn_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    withdrawn_why = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_family_summaries", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_family_summaries_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_family_summaries_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_summaries_family_summaries_agency_id_learner_id_corr",
                        columns: x => new { x.agency_id, x.learner_id, x.corrects_id },
                        principalSchema: "portal",
                        principalTable: "family_summaries",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_summaries_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_summaries_people_agency_id_published_by",
                        columns: x => new { x.agency_id, x.published_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "learner_hand_overs",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    to_person_id = table.Column<int>(type: "integer", nullable: true),
                    manager_id = table.Column<int>(type: "integer", nullable: true),
                    last_day = table.Column<LocalDate>(type: "date", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    done_by = table.Column<int>(type: "integer", nullable: false),
                    done_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    operation = table.Column<Guid>(type: "uuid", nullable: false),
                    undone_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    undone_by = table.Column<int>(type: "integer", nullable: true),
                    undone_reason = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_learner_hand_overs", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_people_agency_id_done_by",
                        columns: x => new { x.agency_id, x.done_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_people_agency_id_manager_id",
                        columns: x => new { x.agency_id, x.manager_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_people_agency_id_to_person_id",
                        columns: x => new { x.agency_id, x.to_person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_hand_overs_people_agency_id_undone_by",
                        columns: x => new { x.agency_id, x.undone_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "learner_names",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    until_day = table.Column<LocalDate>(type: "date", nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    changed_by = table.Column<int>(type: "integer", nullable: false),
                    changed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_learner_names", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_learner_names_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_names_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_names_people_agency_id_changed_by",
                        columns: x => new { x.agency_id, x.changed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "learner_periods",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    period_id = table.Column<int>(type: "integer", nullable: false),
                    closed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    closed_by = table.Column<int>(type: "integer", nullable: true),
                    first_day = table.Column<LocalDate>(type: "date", nullable: true),
                    last_day = table.Column<LocalDate>(type: "date", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_learner_periods", x => new { x.agency_id, x.learner_id, x.period_id });
                    table.ForeignKey(
                        name: "fk_learner_periods_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_periods_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_learner_periods_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
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
                name: "meetings",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    about = table.Column<string>(type: "text", nullable: false),
                    family_by = table.Column<LocalDate>(type: "date", nullable: false),
                    content = table.Column<string>(type: "jsonb", nullable: false),
                    made_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_meetings", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_meetings_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_meetings_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_meetings_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_meetings_people_agency_id_made_by",
                        columns: x => new { x.agency_id, x.made_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "moves_in",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    from_where = table.Column<string>(type: "text", nullable: false),
                    other_state = table.Column<bool>(type: "boolean", nullable: false),
                    first_day = table.Column<LocalDate>(type: "date", nullable: false),
                    status = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    decided_on = table.Column<LocalDate>(type: "date", nullable: true),
                    decided_by = table.Column<int>(type: "integer", nullable: true),
                    decided_words = table.Column<string>(type: "text", nullable: true),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_moves_in", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_moves_in_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_moves_in_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_moves_in_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_moves_in_people_agency_id_decided_by",
                        columns: x => new { x.agency_id, x.decided_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_moves_in_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "moves_out",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    last_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_where = table.Column<string>(type: "text", nullable: false),
                    ground = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    ground_words = table.Column<string>(type: "text", nullable: false),
                    read_until = table.Column<LocalDate>(type: "date", nullable: false),
                    works = table.Column<string>(type: "text", nullable: true),
                    works_not = table.Column<string>(type: "text", nullable: true),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    operation = table.Column<Guid>(type: "uuid", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_moves_out", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_moves_out_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_moves_out_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_moves_out_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_moves_out_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "observations",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    assistant_id = table.Column<int>(type: "integer", nullable: false),
                    observer_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    minutes = table.Column<int>(type: "integer", nullable: false),
                    direct = table.Column<bool>(type: "boolean", nullable: false),
                    note = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_observations", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_observations_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_observations_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_observations_people_agency_id_assistant_id",
                        columns: x => new { x.agency_id, x.assistant_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_observations_people_agency_id_observer_id",
                        columns: x => new { x.agency_id, x.observer_id },
                        principalSchema: "portal",
                        principalTable: "people",
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
                name: "outbox",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: true),
                    slot = table.Column<LocalDateTime>(type: "timestamp without time zone", nullable: true),
                    not_before = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    state = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    tries = table.Column<int>(type: "integer", nullable: false),
                    secret = table.Column<string>(type: "text", nullable: true),
                    token_hash = table.Column<byte[]>(type: "bytea", nullable: true),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    answer = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outbox", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_outbox_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_outbox_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_outbox_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "plans",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    start_day = table.Column<LocalDate>(type: "date", nullable: false),
                    end_day = table.Column<LocalDate>(type: "date", nullable: false),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_plans", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_plans_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_plans_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_plans_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "quiets",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    named_by = table.Column<string>(type: "text", nullable: false),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    set_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_by = table.Column<int>(type: "integer", nullable: true),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    ended_reason = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_quiets", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_quiets_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_quiets_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_quiets_people_agency_id_ended_by",
                        columns: x => new { x.agency_id, x.ended_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_quiets_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "read_firsts",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_read_firsts", x => new { x.agency_id, x.learner_id, x.person_id, x.on_day });
                    table.ForeignKey(
                        name: "fk_read_firsts_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_read_firsts_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_read_firsts_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "record_holds",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    set_by = table.Column<int>(type: "integer", nullable: false),
                    set_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    ended_by = table.Column<int>(type: "integer", nullable: true),
                    ended_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    ended_word = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_record_holds", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_record_holds_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_holds_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_holds_people_agency_id_ended_by",
                        columns: x => new { x.agency_id, x.ended_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_holds_people_agency_id_set_by",
                        columns: x => new { x.agency_id, x.set_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "record_requests",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    received_on = table.Column<LocalDate>(type: "date", nullable: false),
                    asked_by = table.Column<string>(type: "text", nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    entered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    answer = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    answered_on = table.Column<LocalDate>(type: "date", nullable: true),
                    answered_by = table.Column<int>(type: "integer", nullable: true),
                    answer_words = table.Column<string>(type: "text", nullable: true),
                    notice_on = table.Column<LocalDate>(type: "date", nullable: true),
                    hearing_asked_on = table.Column<LocalDate>(type: "date", nullable: true),
                    hearing_ended_on = table.Column<LocalDate>(type: "date", nullable: true),
                    hearing_outcome = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_record_requests", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_record_requests_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_record_requests_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_requests_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_requests_people_agency_id_answered_by",
                        columns: x => new { x.agency_id, x.answered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_record_requests_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "relations",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: true),
                    supervisor_id = table.Column<int>(type: "integer", nullable: true),
                    ground = table.Column<string>(type: "text", nullable: true),
                    taps_at_home = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    adult_basis = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    adult_paper = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_relations", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_relations_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_relations_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_relations_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_relations_people_agency_id_supervisor_id",
                        columns: x => new { x.agency_id, x.supervisor_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

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
                    ended_on = table.Column<LocalDate>(type: "date", nullable: true),
                    ended_by = table.Column<int>(type: "integer", nullable: true),
                    ended_reason = table.Column<string>(type: "text", nullable: true),
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
                    table.ForeignKey(
                        name: "fk_routines_people_agency_id_ended_by",
                        columns: x => new { x.agency_id, x.ended_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
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
                name: "statements",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    period_id = table.Column<int>(type: "integer", nullable: false),
                    edition = table.Column<int>(type: "integer", nullable: false),
                    sealed_by = table.Column<int>(type: "integer", nullable: false),
                    sealed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    credential = table.Column<string>(type: "text", nullable: false),
                    meaning = table.Column<string>(type: "text", nullable: false),
                    rules = table.Column<string>(type: "text", nullable: false),
                    policy = table.Column<string>(type: "text", nullable: false),
                    as_of = table.Column<LocalDate>(type: "date", nullable: false),
                    facts = table.Column<string>(type: "text", nullable: false),
                    left_standing = table.Column<string>(type: "text", nullable: false),
                    hash = table.Column<string>(type: "text", nullable: false),
                    block_hash = table.Column<string>(type: "text", nullable: true),
                    restates_id = table.Column<int>(type: "integer", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    reopened_by = table.Column<int>(type: "integer", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_statements", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_statements_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_statements_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_statements_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_statements_people_agency_id_reopened_by",
                        columns: x => new { x.agency_id, x.reopened_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_statements_people_agency_id_sealed_by",
                        columns: x => new { x.agency_id, x.sealed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_statements_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_statements_statements_agency_id_learner_id_restates_id",
                        columns: x => new { x.agency_id, x.learner_id, x.restates_id },
                        principalSchema: "portal",
                        principalTable: "statements",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "supervisions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    assistant_id = table.Column<int>(type: "integer", nullable: false),
                    every_unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    every_count = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_supervisions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_supervisions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_supervisions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_supervisions_people_agency_id_assistant_id",
                        columns: x => new { x.agency_id, x.assistant_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "teach_parts",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    part = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    owner = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    text = table.Column<string>(type: "text", nullable: false),
                    written_on = table.Column<LocalDate>(type: "date", nullable: false),
                    written_by = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_teach_parts", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_teach_parts_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_teach_parts_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "things",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    plan_words = table.Column<string>(type: "text", nullable: true),
                    owner_id = table.Column<int>(type: "integer", nullable: false),
                    promised_on = table.Column<LocalDate>(type: "date", nullable: false),
                    due_on = table.Column<LocalDate>(type: "date", nullable: true),
                    goals = table.Column<int[]>(type: "integer[]", nullable: false, defaultValueSql: "'{}'"),
                    routines = table.Column<int[]>(type: "integer[]", nullable: false, defaultValueSql: "'{}'"),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    entered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    ended_on = table.Column<LocalDate>(type: "date", nullable: true),
                    ended_why = table.Column<string>(type: "text", nullable: true),
                    ended_by = table.Column<int>(type: "integer", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_things", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_things_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_things_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_things_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_things_people_agency_id_ended_by",
                        columns: x => new { x.agency_id, x.ended_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_things_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_things_people_agency_id_owner_id",
                        columns: x => new { x.agency_id, x.owner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sample_files",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    sample_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sample_files", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_sample_files_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_sample_files_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sample_files_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sample_files_samples_agency_id_sample_id",
                        columns: x => new { x.agency_id, x.sample_id },
                        principalSchema: "portal",
                        principalTable: "samples",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "asked_records",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    move_in_id = table.Column<int>(type: "integer", nullable: false),
                    what = table.Column<string>(type: "text", nullable: false),
                    of_whom = table.Column<string>(type: "text", nullable: false),
                    asked_on = table.Column<LocalDate>(type: "date", nullable: false),
                    asked_by = table.Column<int>(type: "integer", nullable: false),
                    received_on = table.Column<LocalDate>(type: "date", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_asked_records", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_asked_records_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_asked_records_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_asked_records_moves_in_agency_id_learner_id_move_in_id",
                        columns: x => new { x.agency_id, x.learner_id, x.move_in_id },
                        principalSchema: "portal",
                        principalTable: "moves_in",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_asked_records_people_agency_id_asked_by",
                        columns: x => new { x.agency_id, x.asked_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "transfer_files",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    move_out_id = table.Column<int>(type: "integer", nullable: false),
                    content = table.Column<string>(type: "jsonb", nullable: false),
                    made_by = table.Column<int>(type: "integer", nullable: false),
                    made_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    sent_on = table.Column<LocalDate>(type: "date", nullable: true),
                    sent_to = table.Column<string>(type: "text", nullable: true),
                    sent_how = table.Column<string>(type: "text", nullable: true),
                    sent_by = table.Column<int>(type: "integer", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_transfer_files", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_transfer_files_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_transfer_files_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_transfer_files_moves_out_agency_id_learner_id_move_out_id",
                        columns: x => new { x.agency_id, x.learner_id, x.move_out_id },
                        principalSchema: "portal",
                        principalTable: "moves_out",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_transfer_files_people_agency_id_made_by",
                        columns: x => new { x.agency_id, x.made_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_transfer_files_people_agency_id_sent_by",
                        columns: x => new { x.agency_id, x.sent_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "acknowledgments",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    plan_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    state = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_acknowledgments", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_acknowledgments_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_acknowledgments_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_acknowledgments_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_acknowledgments_plans_agency_id_learner_id_plan_id",
                        columns: x => new { x.agency_id, x.learner_id, x.plan_id },
                        principalSchema: "portal",
                        principalTable: "plans",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "goals",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    plan_id = table.Column<int>(type: "integer", nullable: false),
                    code = table.Column<string>(type: "text", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    area = table.Column<string>(type: "text", nullable: false),
                    statement = table.Column<string>(type: "text", nullable: false),
                    plain_english = table.Column<string>(type: "text", nullable: true),
                    plain_spanish = table.Column<string>(type: "text", nullable: true),
                    target = table.Column<decimal>(type: "numeric", nullable: true),
                    target_day = table.Column<LocalDate>(type: "date", nullable: true),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1),
                    measure = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    better = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    counts = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false, defaultValue: "Probe"),
                    conditions = table.Column<string>(type: "text", nullable: true),
                    baseline = table.Column<decimal>(type: "numeric", nullable: true),
                    present_day = table.Column<LocalDate>(type: "date", nullable: true),
                    present_conditions = table.Column<string>(type: "text", nullable: true),
                    present_source = table.Column<string>(type: "text", nullable: true),
                    chance = table.Column<decimal>(type: "numeric", nullable: true),
                    teaching_from = table.Column<LocalDate>(type: "date", nullable: true),
                    criterion_days = table.Column<int>(type: "integer", nullable: true),
                    criterion_of = table.Column<int>(type: "integer", nullable: true),
                    criterion_fewest = table.Column<int>(type: "integer", nullable: true),
                    criterion_people = table.Column<int>(type: "integer", nullable: true),
                    criterion_places = table.Column<int>(type: "integer", nullable: true),
                    first_upkeep = table.Column<int>(type: "integer", nullable: true),
                    second_upkeep = table.Column<int>(type: "integer", nullable: true),
                    third_upkeep = table.Column<int>(type: "integer", nullable: true),
                    in_a_row = table.Column<int>(type: "integer", nullable: false, defaultValue: 4)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_goals", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_goals_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_goals_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goals_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goals_plans_agency_id_learner_id_plan_id",
                        columns: x => new { x.agency_id, x.learner_id, x.plan_id },
                        principalSchema: "portal",
                        principalTable: "plans",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "services",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    plan_id = table.Column<int>(type: "integer", nullable: false),
                    code = table.Column<string>(type: "text", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    discipline = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    format = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    terms = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    co_treatment = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    short_window = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    every_unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    every_count = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: false),
                    wording = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    end_reason = table.Column<string>(type: "text", nullable: true),
                    continues_id = table.Column<int>(type: "integer", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_services", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_services_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_services_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_services_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_services_plans_agency_id_learner_id_plan_id",
                        columns: x => new { x.agency_id, x.learner_id, x.plan_id },
                        principalSchema: "portal",
                        principalTable: "plans",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_services_services_agency_id_learner_id_continues_id",
                        columns: x => new { x.agency_id, x.learner_id, x.continues_id },
                        principalSchema: "portal",
                        principalTable: "services",
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
                name: "home_logs",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    routine_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    who = table.Column<string>(type: "text", nullable: false),
                    how_it_went = table.Column<string>(type: "text", nullable: true),
                    answer = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false, defaultValue: "Done"),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    by_family = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_home_logs", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_home_logs_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_home_logs_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_home_logs_people_agency_id_recorded_by",
                        columns: x => new { x.agency_id, x.recorded_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_home_logs_routines_agency_id_learner_id_routine_id",
                        columns: x => new { x.agency_id, x.learner_id, x.routine_id },
                        principalSchema: "portal",
                        principalTable: "routines",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
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
                name: "deliveries",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    paper = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    report_id = table.Column<int>(type: "integer", nullable: true),
                    statement_id = table.Column<int>(type: "integer", nullable: true),
                    meeting_id = table.Column<int>(type: "integer", nullable: true),
                    about = table.Column<string>(type: "text", nullable: true),
                    due_on = table.Column<LocalDate>(type: "date", nullable: true),
                    sent_on = table.Column<LocalDate>(type: "date", nullable: false),
                    way = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    language = table.Column<string>(type: "text", nullable: false),
                    to_whom = table.Column<string>(type: "text", nullable: false),
                    sent_by = table.Column<int>(type: "integer", nullable: false),
                    returned_on = table.Column<LocalDate>(type: "date", nullable: true),
                    returned_word = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_deliveries", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_deliveries_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_deliveries_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_deliveries_meetings_agency_id_learner_id_meeting_id",
                        columns: x => new { x.agency_id, x.learner_id, x.meeting_id },
                        principalSchema: "portal",
                        principalTable: "meetings",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_deliveries_people_agency_id_sent_by",
                        columns: x => new { x.agency_id, x.sent_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_deliveries_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_deliveries_statements_agency_id_learner_id_statement_id",
                        columns: x => new { x.agency_id, x.learner_id, x.statement_id },
                        principalSchema: "portal",
                        principalTable: "statements",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "reopenings",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    period_id = table.Column<int>(type: "integer", nullable: false),
                    statement_id = table.Column<int>(type: "integer", nullable: false),
                    asked_by = table.Column<int>(type: "integer", nullable: false),
                    asked_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    answered_by = table.Column<int>(type: "integer", nullable: true),
                    answered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    granted = table.Column<bool>(type: "boolean", nullable: true),
                    answer = table.Column<string>(type: "text", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reopenings", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_reopenings_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reopenings_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reopenings_people_agency_id_answered_by",
                        columns: x => new { x.agency_id, x.answered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reopenings_people_agency_id_asked_by",
                        columns: x => new { x.agency_id, x.asked_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reopenings_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_reopenings_statements_agency_id_learner_id_statement_id",
                        columns: x => new { x.agency_id, x.learner_id, x.statement_id },
                        principalSchema: "portal",
                        principalTable: "statements",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "thing_events",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    thing_id = table.Column<int>(type: "integer", nullable: false),
                    act = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    words = table.Column<string>(type: "text", nullable: true),
                    meanwhile = table.Column<string>(type: "text", nullable: true),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_thing_events", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_thing_events_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_thing_events_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_thing_events_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_thing_events_things_agency_id_learner_id_thing_id",
                        columns: x => new { x.agency_id, x.learner_id, x.thing_id },
                        principalSchema: "portal",
                        principalTable: "things",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sample_answers",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    file_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    question = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    answer = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    word = table.Column<string>(type: "text", nullable: true),
                    answered_by = table.Column<int>(type: "integer", nullable: false),
                    answered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sample_answers", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_sample_answers_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sample_answers_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sample_answers_people_agency_id_answered_by",
                        columns: x => new { x.agency_id, x.answered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sample_answers_sample_files_agency_id_learner_id_file_id",
                        columns: x => new { x.agency_id, x.learner_id, x.file_id },
                        principalSchema: "portal",
                        principalTable: "sample_files",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

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

            migrationBuilder.CreateTable(
                name: "goal_owners",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_goal_owners", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_goal_owners_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_owners_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_owners_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_goal_owners_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "objectives",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    statement = table.Column<string>(type: "text", nullable: false),
                    target_day = table.Column<LocalDate>(type: "date", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_objectives", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_objectives_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_objectives_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_objectives_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "probe_commitments",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    probes = table.Column<int>(type: "integer", nullable: false),
                    every_unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    every_count = table.Column<int>(type: "integer", nullable: false),
                    by_each = table.Column<bool>(type: "boolean", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_probe_commitments", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_probe_commitments_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probe_commitments_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probe_commitments_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
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
                name: "assignments",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    to_day = table.Column<LocalDate>(type: "date", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_assignments", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_assignments_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_assignments_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_assignments_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_assignments_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "awards",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    source = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    paper = table.Column<string>(type: "text", nullable: false),
                    amount = table.Column<int>(type: "integer", nullable: false),
                    unit = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    discipline = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    may_give = table.Column<int[]>(type: "integer[]", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    until_day = table.Column<LocalDate>(type: "date", nullable: true),
                    from_file = table.Column<bool>(type: "boolean", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_awards", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_awards_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_awards_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_awards_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_awards_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "balances",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: false),
                    as_of = table.Column<LocalDate>(type: "date", nullable: false),
                    given_before = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_balances", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_balances_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_balances_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_balances_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "debts",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    goal_id = table.Column<int>(type: "integer", nullable: true),
                    owner_id = table.Column<int>(type: "integer", nullable: true),
                    period_id = table.Column<int>(type: "integer", nullable: true),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    since = table.Column<LocalDate>(type: "date", nullable: false),
                    make_up = table.Column<int>(type: "integer", nullable: false),
                    make_up_sessions = table.Column<int>(type: "integer", nullable: false),
                    meeting = table.Column<int>(type: "integer", nullable: false),
                    meeting_sessions = table.Column<int>(type: "integer", nullable: false),
                    undecided = table.Column<int>(type: "integer", nullable: false),
                    undecided_sessions = table.Column<int>(type: "integer", nullable: false),
                    by_day = table.Column<LocalDate>(type: "date", nullable: true),
                    paid_before = table.Column<int>(type: "integer", nullable: false),
                    paid_before_sessions = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_debts", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_debts_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_debts_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debts_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debts_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debts_people_agency_id_owner_id",
                        columns: x => new { x.agency_id, x.owner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debts_periods_agency_id_period_id",
                        columns: x => new { x.agency_id, x.period_id },
                        principalSchema: "portal",
                        principalTable: "periods",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debts_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "decisions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    goal_id = table.Column<int>(type: "integer", nullable: true),
                    owner_id = table.Column<int>(type: "integer", nullable: true),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    amount = table.Column<int>(type: "integer", nullable: false),
                    sessions = table.Column<int>(type: "integer", nullable: true),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    decided_on = table.Column<LocalDate>(type: "date", nullable: false),
                    decided_by = table.Column<int[]>(type: "integer[]", nullable: false),
                    others_present = table.Column<string>(type: "text", nullable: true),
                    family_told_on = table.Column<LocalDate>(type: "date", nullable: true),
                    by_day = table.Column<LocalDate>(type: "date", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_decisions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_decisions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_decisions_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_decisions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_decisions_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
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
                    service_id = table.Column<int>(type: "integer", nullable: true),
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
                    table.ForeignKey(
                        name: "fk_holds_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "move_in_services",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    move_in_id = table.Column<int>(type: "integer", nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_move_in_services", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_move_in_services_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_move_in_services_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_move_in_services_moves_in_agency_id_learner_id_move_in_id",
                        columns: x => new { x.agency_id, x.learner_id, x.move_in_id },
                        principalSchema: "portal",
                        principalTable: "moves_in",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_move_in_services_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_move_in_services_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sealed_lines",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    statement_id = table.Column<int>(type: "integer", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    goal_id = table.Column<int>(type: "integer", nullable: true),
                    owner_id = table.Column<int>(type: "integer", nullable: true),
                    inputs = table.Column<string>(type: "text", nullable: false),
                    answer = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sealed_lines", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_sealed_lines_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sealed_lines_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sealed_lines_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sealed_lines_people_agency_id_owner_id",
                        columns: x => new { x.agency_id, x.owner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sealed_lines_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sealed_lines_statements_agency_id_learner_id_statement_id",
                        columns: x => new { x.agency_id, x.learner_id, x.statement_id },
                        principalSchema: "portal",
                        principalTable: "statements",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
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
                name: "service_versions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: false),
                    code = table.Column<string>(type: "text", nullable: false),
                    from_day = table.Column<LocalDate>(type: "date", nullable: false),
                    quantity = table.Column<int>(type: "integer", nullable: false),
                    quantity_to = table.Column<int>(type: "integer", nullable: true),
                    sessions = table.Column<int>(type: "integer", nullable: true),
                    assistants_count = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    plan_words = table.Column<string>(type: "text", nullable: true),
                    plan_page = table.Column<string>(type: "text", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_service_versions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_service_versions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_service_versions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_service_versions_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
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

            migrationBuilder.CreateTable(
                name: "debt_decisions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    debt_id = table.Column<int>(type: "integer", nullable: false),
                    amount = table.Column<int>(type: "integer", nullable: false),
                    sessions = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    decided_on = table.Column<LocalDate>(type: "date", nullable: false),
                    decided_by = table.Column<int[]>(type: "integer[]", nullable: false),
                    others_present = table.Column<string>(type: "text", nullable: true),
                    family_told_on = table.Column<LocalDate>(type: "date", nullable: true),
                    by_day = table.Column<LocalDate>(type: "date", nullable: true),
                    note = table.Column<string>(type: "text", nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_debt_decisions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_debt_decisions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debt_decisions_debts_agency_id_learner_id_debt_id",
                        columns: x => new { x.agency_id, x.learner_id, x.debt_id },
                        principalSchema: "portal",
                        principalTable: "debts",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_debt_decisions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
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

            migrationBuilder.CreateTable(
                name: "visits",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false, defaultValue: "Service"),
                    service_id = table.Column<int>(type: "integer", nullable: true),
                    provider_id = table.Column<int>(type: "integer", nullable: false),
                    series_id = table.Column<int>(type: "integer", nullable: true),
                    original_start = table.Column<LocalDateTime>(type: "timestamp without time zone", nullable: true),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    start_time = table.Column<LocalTime>(type: "time", nullable: false),
                    minutes = table.Column<int>(type: "integer", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    during = table.Column<NpgsqlRange<Instant>>(type: "tstzrange", nullable: false),
                    planned_start = table.Column<LocalTime>(type: "time", nullable: true),
                    planned_minutes = table.Column<int>(type: "integer", nullable: true),
                    state = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    takes_time = table.Column<bool>(type: "boolean", nullable: false),
                    learners_time = table.Column<bool>(type: "boolean", nullable: false),
                    group_no = table.Column<long>(type: "bigint", nullable: false, defaultValueSql: "nextval('portal.visit_numbers')"),
                    together_no = table.Column<long>(type: "bigint", nullable: false, defaultValueSql: "nextval('portal.visit_numbers')"),
                    pays_on = table.Column<LocalDate>(type: "date", nullable: true),
                    award_id = table.Column<int>(type: "integer", nullable: true),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: true),
                    format = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    partner_id = table.Column<int>(type: "integer", nullable: true),
                    called_off = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    away_id = table.Column<int>(type: "integer", nullable: true),
                    closure_id = table.Column<int>(type: "integer", nullable: true),
                    on_closed_day = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    expected_start = table.Column<LocalTime>(type: "time", nullable: true),
                    touched = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    sequence = table.Column<int>(type: "integer", nullable: false, defaultValue: 0),
                    @ref = table.Column<string>(name: "ref", type: "text", nullable: true),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()"),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_visits", x => new { x.agency_id, x.id });
                    table.UniqueConstraint("ak_visits_agency_id_learner_id_id", x => new { x.agency_id, x.learner_id, x.id });
                    table.ForeignKey(
                        name: "fk_visits_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_awards_agency_id_learner_id_award_id",
                        columns: x => new { x.agency_id, x.learner_id, x.award_id },
                        principalSchema: "portal",
                        principalTable: "awards",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_aways_agency_id_learner_id_away_id",
                        columns: x => new { x.agency_id, x.learner_id, x.away_id },
                        principalSchema: "portal",
                        principalTable: "aways",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_closures_agency_id_closure_id",
                        columns: x => new { x.agency_id, x.closure_id },
                        principalSchema: "portal",
                        principalTable: "closures",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_people_agency_id_partner_id",
                        columns: x => new { x.agency_id, x.partner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_people_agency_id_provider_id",
                        columns: x => new { x.agency_id, x.provider_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_series_agency_id_learner_id_series_id",
                        columns: x => new { x.agency_id, x.learner_id, x.series_id },
                        principalSchema: "portal",
                        principalTable: "series",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visits_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "family_remarks",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: true),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    words = table.Column<string>(type: "text", nullable: false),
                    said_by = table.Column<string>(type: "text", nullable: false),
                    said_on = table.Column<LocalDate>(type: "date", nullable: false),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    entered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    by_family = table.Column<bool>(type: "boolean", nullable: false),
                    answer = table.Column<string>(type: "text", nullable: true),
                    answered_by = table.Column<int>(type: "integer", nullable: true),
                    answered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", rowVersion: true, nullable: false, defaultValue: 1)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_family_remarks", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_family_remarks_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_remarks_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_remarks_people_agency_id_answered_by",
                        columns: x => new { x.agency_id, x.answered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_remarks_people_agency_id_entered_by",
                        columns: x => new { x.agency_id, x.entered_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_family_remarks_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "filed_items",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: true),
                    report_id = table.Column<int>(type: "integer", nullable: true),
                    words = table.Column<string>(type: "text", nullable: false),
                    filed_by = table.Column<int>(type: "integer", nullable: false),
                    filed_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_filed_items", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_filed_items_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_filed_items_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_filed_items_people_agency_id_filed_by",
                        columns: x => new { x.agency_id, x.filed_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_filed_items_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_filed_items_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_filed_items_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "handed_over",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    start_time = table.Column<LocalTime>(type: "time", nullable: false),
                    minutes = table.Column<int>(type: "integer", nullable: false),
                    zone = table.Column<string>(type: "text", nullable: false),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    place_id = table.Column<int>(type: "integer", nullable: true),
                    sequence = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_handed_over", x => new { x.agency_id, x.visit_id, x.person_id });
                    table.ForeignKey(
                        name: "fk_handed_over_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_handed_over_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_handed_over_people_agency_id_person_id",
                        columns: x => new { x.agency_id, x.person_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_handed_over_places_agency_id_place_id",
                        columns: x => new { x.agency_id, x.place_id },
                        principalSchema: "portal",
                        principalTable: "places",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_handed_over_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
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
                    observes_code = table.Column<string>(type: "text", nullable: true),
                    under_holds = table.Column<int[]>(type: "integer[]", nullable: false, defaultValueSql: "'{}'"),
                    under_holds_word = table.Column<string>(type: "text", nullable: true),
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
                name: "sessions",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    service_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    provider_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    pays_on = table.Column<LocalDate>(type: "date", nullable: true),
                    award_id = table.Column<int>(type: "integer", nullable: true),
                    outcome = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    start_time = table.Column<LocalTime>(type: "time", nullable: false),
                    end_time = table.Column<LocalTime>(type: "time", nullable: false),
                    not_counted = table.Column<int>(type: "integer", nullable: false),
                    credited = table.Column<int>(type: "integer", nullable: false),
                    withheld = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    supervisor_id = table.Column<int>(type: "integer", nullable: true),
                    countersigned_by = table.Column<int>(type: "integer", nullable: true),
                    countersigned_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true),
                    sent_back_why = table.Column<string>(type: "text", nullable: true),
                    observed = table.Column<bool>(type: "boolean", nullable: false),
                    reason = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    place = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    format = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    partner_id = table.Column<int>(type: "integer", nullable: true),
                    shared_minutes = table.Column<int>(type: "integer", nullable: true),
                    declined_reason = table.Column<string>(type: "text", nullable: true),
                    practised = table.Column<string>(type: "text", nullable: true),
                    routines = table.Column<int[]>(type: "integer[]", nullable: false, defaultValueSql: "'{}'"),
                    filled = table.Column<string>(type: "jsonb", nullable: false, defaultValueSql: "'[]'"),
                    present = table.Column<string>(type: "text", nullable: true),
                    note = table.Column<string>(type: "text", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    replaces = table.Column<Guid>(type: "uuid", nullable: true),
                    correction_reason = table.Column<string>(type: "text", nullable: true),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    origin = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sessions", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_sessions_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_awards_agency_id_learner_id_award_id",
                        columns: x => new { x.agency_id, x.learner_id, x.award_id },
                        principalSchema: "portal",
                        principalTable: "awards",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_people_agency_id_countersigned_by",
                        columns: x => new { x.agency_id, x.countersigned_by },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_people_agency_id_partner_id",
                        columns: x => new { x.agency_id, x.partner_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_people_agency_id_provider_id",
                        columns: x => new { x.agency_id, x.provider_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_people_agency_id_supervisor_id",
                        columns: x => new { x.agency_id, x.supervisor_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_services_agency_id_learner_id_service_id",
                        columns: x => new { x.agency_id, x.learner_id, x.service_id },
                        principalSchema: "portal",
                        principalTable: "services",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sessions_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "visit_goals",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_visit_goals", x => new { x.agency_id, x.visit_id, x.goal_id });
                    table.ForeignKey(
                        name: "fk_visit_goals_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_goals_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_goals_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_visit_goals_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
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
                name: "probes",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    goal_id = table.Column<int>(type: "integer", nullable: false),
                    provider_id = table.Column<int>(type: "integer", nullable: false),
                    on_day = table.Column<LocalDate>(type: "date", nullable: false),
                    pays_on = table.Column<LocalDate>(type: "date", nullable: true),
                    value = table.Column<decimal>(type: "numeric", nullable: false),
                    opportunities = table.Column<int>(type: "integer", nullable: true),
                    kind = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    stage = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    conditions = table.Column<string>(type: "text", nullable: true),
                    state = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: true),
                    position = table.Column<string>(type: "text", nullable: true),
                    side = table.Column<string>(type: "text", nullable: true),
                    place = table.Column<string>(type: "text", nullable: true),
                    session_id = table.Column<Guid>(type: "uuid", nullable: true),
                    practice_id = table.Column<Guid>(type: "uuid", nullable: true),
                    live = table.Column<bool>(type: "boolean", nullable: false),
                    replaces = table.Column<Guid>(type: "uuid", nullable: true),
                    correction_reason = table.Column<string>(type: "text", nullable: true),
                    taken_back_reason = table.Column<string>(type: "text", nullable: true),
                    from_file = table.Column<bool>(type: "boolean", nullable: false, defaultValue: false),
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
                    recorded_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false, defaultValueSql: "now()")
                },
                constraints: table =>
                {
                    table.PrimaryKey("ak_probes_agency_id_id", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_probes_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probes_goals_agency_id_learner_id_goal_id",
                        columns: x => new { x.agency_id, x.learner_id, x.goal_id },
                        principalSchema: "portal",
                        principalTable: "goals",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probes_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probes_people_agency_id_provider_id",
                        columns: x => new { x.agency_id, x.provider_id },
                        principalSchema: "portal",
                        principalTable: "people",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_probes_practices_agency_id_learner_id_practice_id",
                        columns: x => new { x.agency_id, x.learner_id, x.practice_id },
                        principalSchema: "portal",
                        principalTable: "practices",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
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

            migrationBuilder.CreateTable(
                name: "parent_statements",
                schema: "portal",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    learner_id = table.Column<int>(type: "integer", nullable: false),
                    request_id = table.Column<int>(type: "integer", nullable: false),
                    about = table.Column<string>(type: "character varying(40)", maxLength: 40, nullable: false),
                    visit_id = table.Column<Guid>(type: "uuid", nullable: true),
                    probe_id = table.Column<Guid>(type: "uuid", nullable: true),
                    report_id = table.Column<int>(type: "integer", nullable: true),
                    words = table.Column<string>(type: "text", nullable: false),
                    given_by = table.Column<string>(type: "text", nullable: false),
                    given_on = table.Column<LocalDate>(type: "date", nullable: false),
                    entered_by = table.Column<int>(type: "integer", nullable: false),
                    entered_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_parent_statements", x => new { x.agency_id, x.id });
                    table.ForeignKey(
                        name: "fk_parent_statements_agencies_agency_id",
                        column: x => x.agency_id,
                        principalSchema: "portal",
                        principalTable: "agencies",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parent_statements_learners_agency_id_learner_id",
                        columns: x => new { x.agency_id, x.learner_id },
                        principalSchema: "portal",
                        principalTable: "learners",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parent_statements_probes_agency_id_probe_id",
                        columns: x => new { x.agency_id, x.probe_id },
                        principalSchema: "portal",
                        principalTable: "probes",
                        principalColumns: new[] { "agency_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parent_statements_record_requests_agency_id_learner_id_requ",
                        columns: x => new { x.agency_id, x.learner_id, x.request_id },
                        principalSchema: "portal",
                        principalTable: "record_requests",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parent_statements_reports_agency_id_learner_id_report_id",
                        columns: x => new { x.agency_id, x.learner_id, x.report_id },
                        principalSchema: "portal",
                        principalTable: "reports",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_parent_statements_visits_agency_id_learner_id_visit_id",
                        columns: x => new { x.agency_id, x.learner_id, x.visit_id },
                        principalSchema: "portal",
                        principalTable: "visits",
                        principalColumns: new[] { "agency_id", "learner_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_accesses_agency_id_id",
                schema: "portal",
                table: "accesses",
                columns: new[] { "agency_id", "id" },
                descending: new[] { false, true });

            migrationBuilder.CreateIndex(
                name: "ix_acknowledgments_agency_id_plan_id_person_id_state",
                schema: "portal",
                table: "acknowledgments",
                columns: new[] { "agency_id", "plan_id", "person_id", "state" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_agencies_code",
                schema: "portal",
                table: "agencies",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_assignments_agency_id_learner_id",
                schema: "portal",
                table: "assignments",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_assignments_agency_id_service_id",
                schema: "portal",
                table: "assignments",
                columns: new[] { "agency_id", "service_id" });

            migrationBuilder.CreateIndex(
                name: "ix_awards_agency_id_learner_id",
                schema: "portal",
                table: "awards",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_aways_agency_id_learner_id_from_day",
                schema: "portal",
                table: "aways",
                columns: new[] { "agency_id", "learner_id", "from_day" });

            migrationBuilder.CreateIndex(
                name: "ix_balances_agency_id_service_id",
                schema: "portal",
                table: "balances",
                columns: new[] { "agency_id", "service_id" });

            migrationBuilder.CreateIndex(
                name: "ix_births_agency_id_learner_id",
                schema: "portal",
                table: "births",
                columns: new[] { "agency_id", "learner_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_bound_dates_agency_id_learner_id",
                schema: "portal",
                table: "bound_dates",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_changes_agency_id_learner_id_id",
                schema: "portal",
                table: "changes",
                columns: new[] { "agency_id", "learner_id", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_changes_agency_id_table_name_row_key",
                schema: "portal",
                table: "changes",
                columns: new[] { "agency_id", "table_name", "row_key" });

            migrationBuilder.CreateIndex(
                name: "ix_changes_agency_id_tx",
                schema: "portal",
                table: "changes",
                columns: new[] { "agency_id", "tx" });

            migrationBuilder.CreateIndex(
                name: "ix_closures_agency_id_on_day",
                schema: "portal",
                table: "closures",
                columns: new[] { "agency_id", "on_day" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_debt_decisions_agency_id_learner_id",
                schema: "portal",
                table: "debt_decisions",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_debts_agency_id_learner_id",
                schema: "portal",
                table: "debts",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_decisions_agency_id_goal_id",
                schema: "portal",
                table: "decisions",
                columns: new[] { "agency_id", "goal_id" });

            migrationBuilder.CreateIndex(
                name: "ix_decisions_agency_id_learner_id",
                schema: "portal",
                table: "decisions",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_decisions_agency_id_service_id",
                schema: "portal",
                table: "decisions",
                columns: new[] { "agency_id", "service_id" });

            migrationBuilder.CreateIndex(
                name: "ix_deliveries_agency_id_learner_id",
                schema: "portal",
                table: "deliveries",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_devices_agency_id_person_id",
                schema: "portal",
                table: "devices",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.CreateIndex(
                name: "ix_extended_years_agency_id_learner_id",
                schema: "portal",
                table: "extended_years",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_extended_years_agency_id_learner_id1",
                schema: "portal",
                table: "extended_years",
                columns: new[] { "agency_id", "learner_id" },
                unique: true,
                filter: "live and answer is null");

            migrationBuilder.CreateIndex(
                name: "ix_family_remarks_agency_id_learner_id_said_on",
                schema: "portal",
                table: "family_remarks",
                columns: new[] { "agency_id", "learner_id", "said_on" });

            migrationBuilder.CreateIndex(
                name: "ix_family_summaries_agency_id_learner_id",
                schema: "portal",
                table: "family_summaries",
                columns: new[] { "agency_id", "learner_id" },
                unique: true,
                filter: "live and published_at is null");

            migrationBuilder.CreateIndex(
                name: "ix_family_summaries_agency_id_learner_id_last_day",
                schema: "portal",
                table: "family_summaries",
                columns: new[] { "agency_id", "learner_id", "last_day" });

            migrationBuilder.CreateIndex(
                name: "ix_filed_items_agency_id_learner_id",
                schema: "portal",
                table: "filed_items",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_goal_changes_agency_id_goal_id",
                schema: "portal",
                table: "goal_changes",
                columns: new[] { "agency_id", "goal_id" });

            migrationBuilder.CreateIndex(
                name: "ix_goal_owners_agency_id_learner_id",
                schema: "portal",
                table: "goal_owners",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_goals_agency_id_code",
                schema: "portal",
                table: "goals",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_goals_agency_id_learner_id",
                schema: "portal",
                table: "goals",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_handed_over_agency_id_person_id_on_day",
                schema: "portal",
                table: "handed_over",
                columns: new[] { "agency_id", "person_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_holds_agency_id_learner_id",
                schema: "portal",
                table: "holds",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_home_logs_agency_id_learner_id_on_day",
                schema: "portal",
                table: "home_logs",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_home_logs_agency_id_routine_id_recorded_by_on_day",
                schema: "portal",
                table: "home_logs",
                columns: new[] { "agency_id", "routine_id", "recorded_by", "on_day" },
                unique: true,
                filter: "live and by_family");

            migrationBuilder.CreateIndex(
                name: "ix_home_practice_agency_id_learner_id",
                schema: "portal",
                table: "home_practice",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_job_runs_agency_id_job_id",
                schema: "portal",
                table: "job_runs",
                columns: new[] { "agency_id", "job", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_last_days_agency_id_person_id",
                schema: "portal",
                table: "last_days",
                columns: new[] { "agency_id", "person_id" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_learner_hand_overs_agency_id_learner_id",
                schema: "portal",
                table: "learner_hand_overs",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_learner_names_agency_id_learner_id_until_day",
                schema: "portal",
                table: "learner_names",
                columns: new[] { "agency_id", "learner_id", "until_day" });

            migrationBuilder.CreateIndex(
                name: "ix_learner_places_agency_id_learner_id_kind",
                schema: "portal",
                table: "learner_places",
                columns: new[] { "agency_id", "learner_id", "kind" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_learners_agency_id_code",
                schema: "portal",
                table: "learners",
                columns: new[] { "agency_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_licences_agency_id_person_id",
                schema: "portal",
                table: "licences",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.CreateIndex(
                name: "ix_meetings_agency_id_learner_id",
                schema: "portal",
                table: "meetings",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_moves_in_agency_id_learner_id",
                schema: "portal",
                table: "moves_in",
                columns: new[] { "agency_id", "learner_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_moves_out_agency_id_learner_id",
                schema: "portal",
                table: "moves_out",
                columns: new[] { "agency_id", "learner_id" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_objectives_agency_id_goal_id",
                schema: "portal",
                table: "objectives",
                columns: new[] { "agency_id", "goal_id" });

            migrationBuilder.CreateIndex(
                name: "ix_observations_agency_id_learner_id",
                schema: "portal",
                table: "observations",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_open_hours_agency_id_learner_id",
                schema: "portal",
                table: "open_hours",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_parent_statements_agency_id_learner_id",
                schema: "portal",
                table: "parent_statements",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_periods_agency_id_name",
                schema: "portal",
                table: "periods",
                columns: new[] { "agency_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_person_disciplines_agency_id_person_id_discipline",
                schema: "portal",
                table: "person_disciplines",
                columns: new[] { "agency_id", "person_id", "discipline" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_person_names_agency_id_person_id_until_day",
                schema: "portal",
                table: "person_names",
                columns: new[] { "agency_id", "person_id", "until_day" });

            migrationBuilder.CreateIndex(
                name: "ix_person_roles_agency_id_person_id",
                schema: "portal",
                table: "person_roles",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.CreateIndex(
                name: "ix_places_agency_id_code",
                schema: "portal",
                table: "places",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_plans_agency_id_learner_id",
                schema: "portal",
                table: "plans",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_policies_agency_id_from_day",
                schema: "portal",
                table: "policies",
                columns: new[] { "agency_id", "from_day" });

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_learner_id_on_day",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_routine_id_observes_code",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "routine_id", "observes_code" },
                filter: "observes_code is not null");

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
                name: "ix_probe_commitments_agency_id_goal_id_from_day",
                schema: "portal",
                table: "probe_commitments",
                columns: new[] { "agency_id", "goal_id", "from_day" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_probe_commitments_agency_id_learner_id",
                schema: "portal",
                table: "probe_commitments",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_probes_agency_id_goal_id_on_day",
                schema: "portal",
                table: "probes",
                columns: new[] { "agency_id", "goal_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_probes_agency_id_learner_id_on_day",
                schema: "portal",
                table: "probes",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_probes_agency_id_practice_id_goal_id",
                schema: "portal",
                table: "probes",
                columns: new[] { "agency_id", "practice_id", "goal_id" },
                unique: true,
                filter: "practice_id is not null and live");

            migrationBuilder.CreateIndex(
                name: "ix_quiets_agency_id_learner_id",
                schema: "portal",
                table: "quiets",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_record_holds_agency_id_learner_id",
                schema: "portal",
                table: "record_holds",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_record_requests_agency_id_learner_id_received_on",
                schema: "portal",
                table: "record_requests",
                columns: new[] { "agency_id", "learner_id", "received_on" });

            migrationBuilder.CreateIndex(
                name: "ix_relations_agency_id_learner_id",
                schema: "portal",
                table: "relations",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_relations_agency_id_person_id",
                schema: "portal",
                table: "relations",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.CreateIndex(
                name: "ix_reopenings_agency_id_learner_id_period_id",
                schema: "portal",
                table: "reopenings",
                columns: new[] { "agency_id", "learner_id", "period_id" },
                unique: true,
                filter: "answered_at is null");

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

            migrationBuilder.CreateIndex(
                name: "ix_routines_agency_id_learner_id_name",
                schema: "portal",
                table: "routines",
                columns: new[] { "agency_id", "learner_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_sample_answers_agency_id_file_id_question",
                schema: "portal",
                table: "sample_answers",
                columns: new[] { "agency_id", "file_id", "question" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sample_files_agency_id_sample_id_learner_id",
                schema: "portal",
                table: "sample_files",
                columns: new[] { "agency_id", "sample_id", "learner_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sealed_lines_agency_id_statement_id_position",
                schema: "portal",
                table: "sealed_lines",
                columns: new[] { "agency_id", "statement_id", "position" },
                unique: true);

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
                name: "ix_service_versions_agency_id_code",
                schema: "portal",
                table: "service_versions",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_service_versions_agency_id_learner_id",
                schema: "portal",
                table: "service_versions",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_service_versions_agency_id_service_id_from_day",
                schema: "portal",
                table: "service_versions",
                columns: new[] { "agency_id", "service_id", "from_day" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_services_agency_id_code",
                schema: "portal",
                table: "services",
                columns: new[] { "agency_id", "code" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_services_agency_id_learner_id",
                schema: "portal",
                table: "services",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_sessions_agency_id_learner_id_on_day",
                schema: "portal",
                table: "sessions",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_sessions_agency_id_service_id_on_day",
                schema: "portal",
                table: "sessions",
                columns: new[] { "agency_id", "service_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_sessions_agency_id_visit_id",
                schema: "portal",
                table: "sessions",
                columns: new[] { "agency_id", "visit_id" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_sessions_to_countersign",
                schema: "portal",
                table: "sessions",
                columns: new[] { "agency_id", "learner_id" },
                filter: "live and supervisor_id is not null and countersigned_at is null");

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
                name: "ix_statements_agency_id_learner_id_period_id_edition",
                schema: "portal",
                table: "statements",
                columns: new[] { "agency_id", "learner_id", "period_id", "edition" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_supervisions_agency_id_learner_id",
                schema: "portal",
                table: "supervisions",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_teach_parts_agency_id_learner_id_part",
                schema: "portal",
                table: "teach_parts",
                columns: new[] { "agency_id", "learner_id", "part" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_terms_agency_id_name",
                schema: "portal",
                table: "terms",
                columns: new[] { "agency_id", "name" },
                unique: true,
                filter: "live");

            migrationBuilder.CreateIndex(
                name: "ix_thing_events_agency_id_learner_id_thing_id",
                schema: "portal",
                table: "thing_events",
                columns: new[] { "agency_id", "learner_id", "thing_id" });

            migrationBuilder.CreateIndex(
                name: "ix_things_agency_id_learner_id",
                schema: "portal",
                table: "things",
                columns: new[] { "agency_id", "learner_id" });

            migrationBuilder.CreateIndex(
                name: "ix_travel_times_agency_id_from_place_id_to_place_id",
                schema: "portal",
                table: "travel_times",
                columns: new[] { "agency_id", "from_place_id", "to_place_id" },
                unique: true,
                filter: "live");

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

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_away_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "away_id" },
                filter: "away_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_closure_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "closure_id" },
                filter: "closure_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_learner_id_on_day",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_provider_id_on_day",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "provider_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_ref",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "ref" },
                unique: true,
                filter: "ref is not null and live");

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_series_id_original_start",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "series_id", "original_start" },
                unique: true,
                filter: "series_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_service_id_on_day",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "service_id", "on_day" });

            migrationBuilder.CreateIndex(
                name: "ix_working_hours_agency_id_person_id",
                schema: "portal",
                table: "working_hours",
                columns: new[] { "agency_id", "person_id" });

            migrationBuilder.SqlFile("0001_walls.sql");
            migrationBuilder.SqlFile("0002_calendar.sql");
            migrationBuilder.SqlFile("0003_audit_reads.sql");
            migrationBuilder.SqlFile("0004_routines.sql");
            migrationBuilder.SqlFile("0005_practice.sql");
            migrationBuilder.SqlFile("0006_reports.sql");
            migrationBuilder.SqlFile("0007_closing.sql");
            migrationBuilder.SqlFile("0008_debts.sql");
            migrationBuilder.SqlFile("0009_family.sql");
            migrationBuilder.SqlFile("0010_mail.sql");
            migrationBuilder.SqlFile("0011_disputes.sql");
            migrationBuilder.SqlFile("0012_people.sql");
            migrationBuilder.SqlFile("0013_moves.sql");
            migrationBuilder.SqlFile("0014_papers.sql");
            migrationBuilder.SqlFile("0015_things.sql");
            migrationBuilder.SqlFile("0016_undo_import.sql");
            migrationBuilder.SqlFile("0017_join_learners.sql");
        }
    }
}
