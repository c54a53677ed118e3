using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class HomeLogsAndDailyLimits : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "most_minutes_a_day",
                schema: "portal",
                table: "people",
                type: "integer",
                nullable: true);

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
                    recorded_by = table.Column<int>(type: "integer", nullable: false, defaultValueSql: "current_setting('app.person')::int"),
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

            migrationBuilder.CreateIndex(
                name: "ix_home_logs_agency_id_learner_id_on_day",
                schema: "portal",
                table: "home_logs",
                columns: new[] { "agency_id", "learner_id", "on_day" });

            migrationBuilder.SqlFile("0010_home_logs.sql");
        }
    }
}
