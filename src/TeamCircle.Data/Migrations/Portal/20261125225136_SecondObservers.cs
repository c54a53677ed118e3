using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class SecondObservers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "filled",
                schema: "portal",
                table: "sessions",
                type: "jsonb",
                nullable: false,
                defaultValueSql: "'[]'");

            migrationBuilder.AddColumn<string>(
                name: "observes_code",
                schema: "portal",
                table: "practices",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int[]>(
                name: "under_holds",
                schema: "portal",
                table: "practices",
                type: "integer[]",
                nullable: false,
                defaultValueSql: "'{}'");

            migrationBuilder.AddColumn<string>(
                name: "under_holds_word",
                schema: "portal",
                table: "practices",
                type: "text",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "service_id",
                schema: "portal",
                table: "holds",
                type: "integer",
                nullable: true);

            migrationBuilder.CreateIndex(
                name: "ix_practices_agency_id_routine_id_observes_code",
                schema: "portal",
                table: "practices",
                columns: new[] { "agency_id", "routine_id", "observes_code" },
                filter: "observes_code is not null");

            migrationBuilder.AddForeignKey(
                name: "fk_holds_services_agency_id_learner_id_service_id",
                schema: "portal",
                table: "holds",
                columns: new[] { "agency_id", "learner_id", "service_id" },
                principalSchema: "portal",
                principalTable: "services",
                principalColumns: new[] { "agency_id", "learner_id", "id" },
                onDelete: ReferentialAction.Restrict);

            migrationBuilder.SqlFile("0008_second_observers.sql");
        }
    }
}
