using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Web.Startup;

/// <summary>Two addresses for machines: is the process alive, and does it reach its database. Each answers one word.</summary>
internal static class Health
{
    public static void AddHealth(this IServiceCollection services, PortalDatabase database) =>
        services.AddHealthChecks().AddAsyncCheck("database", async stop =>
            await database.AnswersAsync(stop) ? HealthCheckResult.Healthy() : HealthCheckResult.Unhealthy());

    public static void MapHealth(this WebApplication app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false });
        app.MapHealthChecks("/health/ready");
    }
}
