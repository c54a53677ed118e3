using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.People;

namespace TeamCircle.Web.Jobs;

/// <summary>Writes series on once a night, from two o'clock in each agency's own zone. Several portals may do so: each visit is written once.</summary>
internal sealed partial class SeriesJob(IServiceScopeFactory scopes, TimeProvider clock, ILogger<SeriesJob> log) : TimedJob(TimeSpan.FromHours(1), clock)
{
    private const int Hour = 2;
    private readonly Dictionary<int, LocalDate> _ranOn = [];

    protected override async Task RunOnceAsync(CancellationToken stop)
    {
        try
        {
            await using var scope = scopes.CreateAsyncScope();
            var topUp = scope.ServiceProvider.GetRequiredService<TopUpSeries>();
            foreach (var (agency, zone) in await topUp.AgenciesAsync(stop))
            {
                var now = AgencyClock.Now(Clock, zone);
                if (now.Hour < Hour || _ranOn.GetValueOrDefault(agency) == now.Date)
                    continue;
                LogWritten(agency, await topUp.RunAsync(agency, stop));
                _ranOn[agency] = now.Date;
            }
        }
        catch (Exception wrong) when (wrong is not OperationCanceledException)
        {
            LogFault(wrong); // the next hour tries again
        }
    }

    [LoggerMessage(LogLevel.Information, "Series of agency {Agency} written on: {Visits} visits")]
    private partial void LogWritten(int agency, int visits);

    [LoggerMessage(LogLevel.Error, "Series could not be written on this time")]
    private partial void LogFault(Exception fault);
}
