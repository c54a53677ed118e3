using Microsoft.EntityFrameworkCore.Migrations;
using NodaTime;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace TeamCircle.Data.Migrations.Account
{
    /// <inheritdoc />
    [OldestPortal("20261125220616_Begin")]
    public partial class Factors : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "is_demonstration",
                schema: "account",
                table: "accounts",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.CreateTable(
                name: "authenticators",
                schema: "account",
                columns: table => new
                {
                    account_id = table.Column<long>(type: "bigint", nullable: false),
                    secret = table.Column<byte[]>(type: "bytea", nullable: false),
                    last_step = table.Column<long>(type: "bigint", nullable: false),
                    since = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_authenticators", x => x.account_id);
                    table.ForeignKey(
                        name: "fk_authenticators_accounts_account_id",
                        column: x => x.account_id,
                        principalSchema: "account",
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "passkey_challenges",
                schema: "account",
                columns: table => new
                {
                    key_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    account_id = table.Column<long>(type: "bigint", nullable: true),
                    state = table.Column<string>(type: "text", nullable: false),
                    ends_at = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_passkey_challenges", x => x.key_hash);
                });

            migrationBuilder.CreateTable(
                name: "provider_links",
                schema: "account",
                columns: table => new
                {
                    issuer = table.Column<string>(type: "text", nullable: false),
                    subject = table.Column<string>(type: "text", nullable: false),
                    account_id = table.Column<long>(type: "bigint", nullable: false),
                    since = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_provider_links", x => new { x.issuer, x.subject });
                    table.ForeignKey(
                        name: "fk_provider_links_accounts_account_id",
                        column: x => x.account_id,
                        principalSchema: "account",
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "recovery_codes",
                schema: "account",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    account_id = table.Column<long>(type: "bigint", nullable: false),
                    code_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    used_at = table.Column<Instant>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_recovery_codes", x => x.id);
                    table.ForeignKey(
                        name: "fk_recovery_codes_accounts_account_id",
                        column: x => x.account_id,
                        principalSchema: "account",
                        principalTable: "accounts",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sign_in_rules",
                schema: "account",
                columns: table => new
                {
                    agency_id = table.Column<int>(type: "integer", nullable: false),
                    families_need_second_factor = table.Column<bool>(type: "boolean", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    by = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<Instant>(type: "timestamp with time zone", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sign_in_rules", x => x.agency_id);
                });

            migrationBuilder.CreateTable(
                name: "tries",
                schema: "account",
                columns: table => new
                {
                    key_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    count = table.Column<int>(type: "integer", nullable: false),
                    last = table.Column<Instant>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tries", x => x.key_hash);
                });

            migrationBuilder.CreateIndex(
                name: "ix_provider_links_account_id",
                schema: "account",
                table: "provider_links",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_recovery_codes_account_id_code_hash",
                schema: "account",
                table: "recovery_codes",
                columns: new[] { "account_id", "code_hash" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tries_last",
                schema: "account",
                table: "tries",
                column: "last");

            migrationBuilder.SqlFile("0018_factors.sql");
        }
    }
}
