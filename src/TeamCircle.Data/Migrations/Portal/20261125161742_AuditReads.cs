using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <inheritdoc />
    public partial class AuditReads : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.SqlFile("0005_audit_reads.sql");
        }
    }
}
