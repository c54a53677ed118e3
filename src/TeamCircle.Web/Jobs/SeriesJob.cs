using TeamCircle.Data.Calendar;
using TeamCircle.Data.Jobs;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Jobs;

/// <summary>Writes series on once a night, from two o'clock.</summary>
internal sealed class SeriesJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<SeriesJob> log) : NightlyJob(Job.Series, 2, scopes, clock, log)
{
    protected override async Task<string> NightAsync(IServiceProvider services, JobAgency agency, CancellationToken stop) =>
        $"{Say.Count(await services.GetRequiredService<TopUpSeries>().RunAsync(agency.Id, stop), "visit")} written.";
}
