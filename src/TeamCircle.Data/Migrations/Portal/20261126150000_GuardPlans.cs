using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace TeamCircle.Data.Migrations.Portal
{
    /// <summary>Changes no table, so that it brings no picture of them.</summary>
    [DbContext(typeof(PortalDb))]
    [Migration("20261126150000_GuardPlans")]
    [OldestPortal("20261126000000_Begin")]
    public class GuardPlans : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder) => migrationBuilder.SqlFile("0022_guard_plans.sql");
    }
}
