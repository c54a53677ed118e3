using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Calendar;

/// <summary>A small team whose clock stands on Friday 2 October 2026, and what tests of the calendar do with it.</summary>
internal sealed class CalendarAgency : IAsyncDisposable
{
    private static int _agencies;

    private CalendarAgency(TestAgency agency, TestTeam team) => (Agency, Team) = (agency, team);

    public TestAgency Agency { get; }
    public TestTeam Team { get; }

    public static async Task<CalendarAgency> CreateAsync(TestDatabase database)
    {
        var agency = await TestAgency.CreateAsync(database, $"CAL{Interlocked.Increment(ref _agencies)}");
        return new(agency, await TestTeam.CreateAsync(agency));
    }

    public ValueTask DisposeAsync() => Agency.DisposeAsync();

    /// <summary>Wren's vision with Odalys every Tuesday at 9:00 from 6 October to 15 December.</summary>
    public ScheduleSeries.Input Tuesdays => new()
    {
        Learner = Team.Wren,
        ServiceId = Team.Vision.Id,
        ProviderId = Team.Odalys,
        Start = new(9, 0),
        Minutes = 45,
        FirstDay = new(2026, 10, 6),
        EndsOn = new(2026, 12, 15),
        Cadence = new() { Days = [IsoDayOfWeek.Tuesday] },
    };

    public async Task<SeriesSaved> ScheduleAsync(ScheduleSeries.Input? input = null, int? by = null) =>
        Value(await RunAsync<ScheduleSeries, SeriesSaved>(by ?? Team.Odalys, (o, c, id) => o.RunAsync(c, id, input ?? Tuesdays)));

    /// <summary>Runs an operation as somebody.</summary>
    public async Task<Outcome<TAnswer>> RunAsync<TOperation, TAnswer>(int by, Func<TOperation, Core.People.Caller, Guid, Task<Outcome<TAnswer>>> run)
        where TOperation : class where TAnswer : class =>
        await run(Agency.Get<TOperation>(), await Team.CallerAsync(by), Guid.CreateVersion7());

    public static T Value<T>(Outcome<T> outcome) where T : class
    {
        Assert.Empty(outcome.Problems);
        return outcome.Value!;
    }

    /// <summary>All rows of a series, in order of their original starts.</summary>
    public Task<List<VisitRow>> RowsAsync(int series) => Agency.Portal.ReadAsync(
        Agency.WholeAgency, db => db.Visits.Where(v => v.AgencyId == Agency.Id && v.SeriesId == series).OrderBy(v => v.OriginalStart).ToListAsync());

    public Task<SeriesRow> SeriesAsync(int id) => Agency.Portal.ReadAsync(Agency.WholeAgency, db => db.Series.SingleAsync(s => s.AgencyId == Agency.Id && s.Id == id));

    public Task<VisitRow> VisitAsync(Guid id) => Agency.Portal.ReadAsync(Agency.WholeAgency, db => db.Visits.SingleAsync(v => v.Id == id));

    /// <summary>The visit of a series whose original day that is.</summary>
    public async Task<VisitRow> OnAsync(int series, int month, int day) => (await RowsAsync(series)).Single(v => v.OriginalStart!.Value.Date == new LocalDate(2026, month, day));

    public Task<ClosureRow> CloseAsync(int month, int day, string name = "Staff day") =>
        Agency.AddAsync(new ClosureRow { OnDay = new(2026, month, day), Name = name, Kind = ClosureKind.Published });

    public static string Days(IEnumerable<VisitRow> rows) => string.Join(' ', rows.Select(r => $"{r.OnDay.Month}/{r.OnDay.Day}"));
}
