using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.DependencyInjection;
using TeamCircle.Data.Account;

namespace TeamCircle.Data;

/// <summary>The one place that says how the two contexts are opened; the portal, tests and the design-time tools all use it.</summary>
public static class Contexts
{
    // IdentityUserContext reads the schema version only from here; without it a migration would drop the passkeys.
    private static readonly IServiceProvider IdentityVersion = new ServiceCollection()
        .Configure<IdentityOptions>(o => o.Stores.SchemaVersion = IdentitySchemaVersions.Version3)
        .BuildServiceProvider();

    public static DbContextOptionsBuilder UsePortal(this DbContextOptionsBuilder options, string connection) =>
        options.UseNpgsql(connection, n => n.UseNodaTime().MigrationsHistoryTable("migrations", PortalDb.Schema))
            .UseSnakeCaseNamingConvention();

    public static DbContextOptionsBuilder UseAccount(this DbContextOptionsBuilder options, string connection) =>
        options.UseNpgsql(connection, n => n.UseNodaTime().MigrationsHistoryTable("migrations", AccountDb.Schema))
            .UseSnakeCaseNamingConvention()
            .UseApplicationServiceProvider(IdentityVersion);

    public static PortalDb Portal(string connection) => new(PortalOptions(connection));

    /// <summary>For a way to the database beside the portal's own.</summary>
    public static IDbContextFactory<PortalDb> PortalFactory(string connection) => new PooledDbContextFactory<PortalDb>(PortalOptions(connection));

    private static DbContextOptions<PortalDb> PortalOptions(string connection) =>
        (DbContextOptions<PortalDb>)new DbContextOptionsBuilder<PortalDb>().UsePortal(connection).Options;

    public static AccountDb Account(string connection) =>
        new((DbContextOptions<AccountDb>)new DbContextOptionsBuilder<AccountDb>().UseAccount(connection).Options);
}

/// <summary>For <c>dotnet ef</c> only; it never connects.</summary>
internal sealed class PortalDesign : IDesignTimeDbContextFactory<PortalDb>
{
    public PortalDb CreateDbContext(string[] args) => Contexts.Portal("Host=localhost;Database=design");
}

/// <inheritdoc cref="PortalDesign"/>
internal sealed class AccountDesign : IDesignTimeDbContextFactory<AccountDb>
{
    public AccountDb CreateDbContext(string[] args) => Contexts.Account("Host=localhost;Database=design");
}
