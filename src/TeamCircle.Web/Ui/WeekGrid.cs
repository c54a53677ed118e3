using System.Globalization;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Ui;

/// <summary>
/// Where everything of a week stands on the ruled timetable. Heights are in em, so that they grow with the reader's letters; widths in
/// percent of the day, and a day is as wide as it has visits side by side.
/// </summary>
public sealed class WeekGrid
{
    /// <summary>The heads of the days, and one hour, in em: half an hour holds three lines also where a reader sets them half a letter apart.</summary>
    public const double Head = 3.9, Hour = 9;

    /// <summary>A shorter time is drawn as if it had this many minutes: its words need three lines.</summary>
    private const int LeastDrawn = 30;

    /// <summary>The least width of a visit in em; a week that needs more than the page scrolls in itself.</summary>
    private const double LeastWidth = 8.5;

    private const int UsualFirst = 8, UsualLast = 15;
    private readonly CalendarWeek _week;
    private readonly bool _maySchedule;
    private readonly LocalDate _today;

    public WeekGrid(CalendarWeek week, bool maySchedule, LocalDate today)
    {
        (_week, _maySchedule, _today) = (week, maySchedule, today);
        var times = week.Visits.Select(v => (v.Start, v.End)).Concat(week.Busy.Select(b => (b.Start, b.End))).ToList();
        FirstHour = times.Select(t => t.Start.Hour).Append(UsualFirst).Min();
        LastHour = times.Select(t => t.End < t.Start ? 24 : (MinuteOf(t.End) + 59) / 60).Append(UsualLast).Max();
        var days = week.Days.Where(IsShown).Select(day => (Day: day, Items: ItemsOf(day))).ToList();
        var columns = days.Sum(d => ColumnsOf(d.Items));
        Width = Em(columns * LeastWidth);
        var left = 0;
        foreach (var (day, items) in days)
        {
            var own = ColumnsOf(items);
            Days.Add(new(day, Percent(left, columns), Percent(own, columns), items, GapsOf(day)));
            left += own;
        }
    }

    public int FirstHour { get; }

    public int LastHour { get; }

    public List<GridDay> Days { get; } = [];

    public string Width { get; }

    public string Height => Em(Head + (LastHour - FirstHour) * Hour + 0.25);

    public IEnumerable<(string Words, string Y)> Hours =>
        Enumerable.Range(FirstHour, LastHour - FirstHour).Select(h => (HourWords(h), Y(h * 60)));

    /// <summary>Weekdays with school, and others where there is something.</summary>
    private bool IsShown(LocalDate day) =>
        _week.Ordinary.Contains(day) || _week.Closures.ContainsKey(day) || _week.Visits.Any(v => v.On == day) || _week.Busy.Any(b => b.On == day);

    private List<GridItem> ItemsOf(LocalDate day)
    {
        var visits = _week.Visits.Where(v => v.On == day).Select(v => (Start: MinuteOf(v.Start), v.Minutes, Visit: (WeekVisit?)v, Busy: (BusySpan?)null));
        var busy = _week.Busy.Where(b => b.On == day)
            .Select(b => (Start: MinuteOf(b.Start), Minutes: MinuteOf(b.End) - MinuteOf(b.Start), Visit: (WeekVisit?)null, Busy: (BusySpan?)b));
        var items = visits.Concat(busy)
            .OrderBy(i => i.Start).ThenByDescending(i => i.Minutes).ToList();
        var lanes = SideBySide.Of([.. items.Select(i => (i.Start, i.Start + Math.Max(i.Minutes, LeastDrawn)))]);
        return [.. items.Zip(lanes, (i, lane) => new GridItem(
            i.Visit, i.Busy, lane.Columns, Percent(lane.Index, lane.Columns), Percent(1, lane.Columns), Y(i.Start), Em(Math.Max(i.Minutes, LeastDrawn) * Hour / 60),
            Em(i.Minutes * Hour / 60)))];
    }

    /// <summary>The empty places of at least half an hour from today on, each a way to a new visit.</summary>
    private IEnumerable<GridGap> GapsOf(LocalDate day)
    {
        if (!_maySchedule || day < _today || _week.Closures.GetValueOrDefault(day) is { Kind: not ClosureKind.Extra } || _week.AwayOn(day) is not null)
            yield break;
        var free = FirstHour * 60;
        var taken = _week.Visits.Where(v => v.On == day && v.State != VisitState.CalledOff).Select(v => (Start: MinuteOf(v.Start), End: MinuteOf(v.Start) + v.Minutes));
        foreach (var (start, end) in taken.Append((LastHour * 60, LastHour * 60)))
        {
            if (start - free >= LeastDrawn)
                yield return new GridGap(LocalTime.FromMinutesSinceMidnight(free), Y(free), Em((start - free) * Hour / 60));
            free = Math.Max(free, end);
        }
    }

    private string Y(int minute) => Em(Head + (minute - FirstHour * 60) * Hour / 60);

    private static int ColumnsOf(List<GridItem> items) => items.Select(i => i.Columns).DefaultIfEmpty(1).Max();

    private static int MinuteOf(LocalTime time) => time.Hour * 60 + time.Minute;

    private static string HourWords(int hour) => Say.Time(new LocalTime(hour, 0)).Replace(":00", "", StringComparison.Ordinal);

    private static string Em(double em) => em.ToString("0.##", CultureInfo.InvariantCulture) + "em";

    private static string Percent(int part, int whole) => (100.0 * part / whole).ToString("0.###", CultureInfo.InvariantCulture) + "%";
}

/// <summary>A day's column.</summary>
public sealed record GridDay(LocalDate Day, string X, string Width, IReadOnlyList<GridItem> Items, IEnumerable<GridGap> Gaps);

/// <summary>A visit, or a time in which a colleague is taken: exactly one of the two.</summary>
/// <param name="Height">At least what its words need.</param>
/// <param name="Length">What it takes by the clock.</param>
public sealed record GridItem(WeekVisit? Visit, BusySpan? Busy, int Columns, string X, string Width, string Y, string Height, string Length);

public sealed record GridGap(LocalTime Start, string Y, string Height);
