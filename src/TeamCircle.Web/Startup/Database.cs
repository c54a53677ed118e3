using TeamCircle.Data.Postgres;

namespace TeamCircle.Web.Startup;

internal static class Database
{
    /// <summary>Starts the private server, or reaches the one that ConnectionStrings__TeamCircle names.</summary>
    public static Task<PortalDatabase> OpenDatabaseAsync(this WebApplicationBuilder builder) =>
        PortalDatabase.OpenAsync(
            builder.Environment.ContentRootPath,
            builder.Configuration.GetConnectionString("TeamCircle"),
            mayMigrate: builder.Environment.IsDevelopment(),
            Console.Out.WriteLine);

    /// <summary>ConnectionStrings__TeamCircleReads, by which long readings go to a standby; null where there is none.</summary>
    public static Task<string?> CheckReadsAsync(this WebApplicationBuilder builder) =>
        PortalDatabase.CheckReadsAsync(builder.Configuration.GetConnectionString("TeamCircleReads"));
}
