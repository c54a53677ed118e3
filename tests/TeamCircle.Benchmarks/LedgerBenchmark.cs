using System.Diagnostics;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Benchmarks;

/// <summary>The ledger alone: so many weekly services with a school year's windows, nine weeks of visits each, no database.</summary>
internal static class LedgerBenchmark
{
    private const int Services = 50_000;
    private static readonly LocalDate Start = new(2026, 8, 17);
    private static readonly LocalDate End = new(2027, 5, 28);

    public static void Run()
    {
        var period = new DateRange(Day.Of(Start), Day.Of(Start.PlusDays(60)));
        var calendar = new SchoolCalendar(
            [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
            IsoDayOfWeek.Monday, [new Term(Start, End, TermKind.Regular)], []);
        var catalog = new WindowCatalog(calendar, [period]);
        var year = new DateRange(Day.Of(Start), Day.Of(End));
        var promise = new Promise(new Every(EveryUnit.Week, 1), year, new PromiseVersion(year.First, 60, 2));
        var windows = catalog.Of(promise, year);
        Entry[] given = [.. Enumerable.Range(0, 12).Select(i => new Entry(year.First + (i * 4 / 7 * 7) + (i % 5), 30))];
        var facts = new LineFacts { Promise = promise, Windows = windows, Given = given };
        var at = new Judging(period, period.Last - 7, new Policies(Policy.Default));
        var desk = new LedgerDesk();
        for (var round = 0; round < 9; round++)
        {
            var allocated = GC.GetAllocatedBytesForCurrentThread();
            var watch = Stopwatch.StartNew();
            long lack = 0;
            for (var i = 0; i < Services; i++)
                lack += Ledger.Judge(facts, at, desk).Minutes.Lack;
            var took = watch.Elapsed;
            Console.WriteLine($"{Services} services in {took.TotalMilliseconds:0} ms: {took.TotalNanoseconds / Services:0} ns a service, "
                + $"{took.TotalNanoseconds / Services / windows.All.Length:0} ns a window; {GC.GetAllocatedBytesForCurrentThread() - allocated} bytes allocated (lack {lack})");
        }
    }
}
