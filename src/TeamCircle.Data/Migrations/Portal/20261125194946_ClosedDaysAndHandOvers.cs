using System;
using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class ClosedDaysAndHandOvers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropPrimaryKey(
                name: "pk_closures",
                schema: "portal",
                table: "closures");

            migrationBuilder.AddColumn<int>(
                name: "closure_id",
                schema: "portal",
                table: "visits",
                type: "integer",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "on_closed_day",
                schema: "portal",
                table: "visits",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddPrimaryKey(
                name: "ak_closures_agency_id_id",
                schema: "portal",
                table: "closures",
                columns: new[] { "agency_id", "id" });

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

            migrationBuilder.CreateIndex(
                name: "ix_visits_agency_id_closure_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "closure_id" },
                filter: "closure_id is not null");

            migrationBuilder.CreateIndex(
                name: "ix_handed_over_agency_id_person_id_on_day",
                schema: "portal",
                table: "handed_over",
                columns: new[] { "agency_id", "person_id", "on_day" });

            migrationBuilder.AddForeignKey(
                name: "fk_visits_closures_agency_id_closure_id",
                schema: "portal",
                table: "visits",
                columns: new[] { "agency_id", "closure_id" },
                principalSchema: "portal",
                principalTable: "closures",
                principalColumns: new[] { "agency_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0008_handed_over.sql");
        }
    }
}
