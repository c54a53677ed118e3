using TeamCircle.Data;
using TeamCircle.Data.History;

namespace TeamCircle.Web.Jobs;

/// <summary>What the portal does by the clock.</summary>
internal static class Jobs
{
    /// <remarks><c>Seal:KeyFile</c> names the key's file in tests, which leave the portal's own folder alone.</remarks>
    public static void AddJobs(this WebApplicationBuilder builder)
    {
        var file = builder.Configuration["Seal:KeyFile"] ?? PortalFolders.From(builder.Environment.ContentRootPath).SealKey;
        builder.Services.AddSingleton(new SealKey(file));
        builder.Services.AddHostedService<SealingJob>();
        builder.Services.AddHostedService<SeriesJob>();
        builder.Services.AddHostedService<DigestJob>();
        builder.Services.AddHostedService<SendingJob>();
        builder.Services.AddHostedService<ExpiryJob>();
        builder.Services.AddHostedService<RetentionJob>();
    }
}
