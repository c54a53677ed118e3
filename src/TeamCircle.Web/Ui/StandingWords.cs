using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;

namespace TeamCircle.Web.Ui;

/// <summary>Where a service or probe commitment stands: as a rail, in figures and in words.</summary>
public static class StandingWords
{
    /// <summary>The page that shows how it was worked out.</summary>
    public static string Address(StandingLine standing) =>
        standing.Line.IsProbes ? $"/audit/goals/{standing.Line.Id}" : $"/audit/services/{standing.Line.Id}";

    /// <summary>Occupational therapy; Probes: communication.</summary>
    public static string Name(this StandingLine standing) => Name(standing.Line);

    /// <inheritdoc cref="Name(StandingLine)"/>
    public static string Name(CommitmentLine line) => line.IsProbes ? $"Probes: {Say.Within(line.Area!)}" : Say.Discipline(line.Service!.Discipline);

    /// <summary>The same inside a sentence, with the owner where probes are asked of each: occupational therapy; probes, communication (Priya Lindqvist).</summary>
    public static string Topic(this StandingLine standing, CaseloadNames names) => Topic(standing.Line, id => names.People.GetValueOrDefault(id));

    /// <inheritdoc cref="Topic(StandingLine, CaseloadNames)"/>
    public static string Topic(CommitmentLine line, Func<int, string?> person) =>
        line is { IsProbes: true, OwnerId: { } owner } ? $"{Topic(line)} ({person(owner)})" : Topic(line);

    /// <summary>The same without an owner, where a goal stands once for all of them.</summary>
    public static string Topic(CommitmentLine line) => line.IsProbes ? $"probes, {Say.Within(line.Area!)}" : Say.Within(Say.Discipline(line.Service!.Discipline));

    /// <summary>Who is named for it on a day: names; for a line that is over, who was last and until when; where nobody is, who comes next; or "nobody assigned".</summary>
    public static string Who(this StandingLine standing, CaseloadNames names, LocalDate day)
    {
        var (line, on) = (standing.Line, Day.Of(day));
        Named[] named = [.. line.Named.Where(n => names.People.ContainsKey(n.PersonId))];
        if (named.Any(n => n.Days.Holds(on)))
            return Say.List([.. named.Where(n => n.Days.Holds(on)).Select(n => names.People[n.PersonId])]);
        if (line.Promise.Dates.Last < on)
            return named.OrderByDescending(n => n.Days.Last).Select(n => $"{names.People[n.PersonId]}, until {Say.Date(n.Days.End)}").FirstOrDefault("nobody assigned");
        return named.Where(n => n.Days.First > on).OrderBy(n => n.Days.First).Select(n => $"{names.People[n.PersonId]}, from {Say.Date(n.Days.Start)}").FirstOrDefault("nobody assigned");
    }

    /// <summary>The rail of a line on the axis of the reporting period.</summary>
    public static Rail Rail(Standings standings, StandingLine standing) => new(
        standings.Period!.StartDay, standings.Period.EndDay, standings.AsOf, standing.Line.IsProbes ? "probes" : "minutes",
        [.. standing.Windows.Select(w => Cell(standing.Line.Promise.Every, w))]);

    /// <summary>One window as a cell of a rail.</summary>
    public static RailCell Cell(Every every, WindowWorking window) => new(
        Say.Window(every, Day.Date(window.Window.Days.First)), Day.Date(window.Window.Days.First), Day.Date(window.Window.Days.Last),
        window.Minutes.Owed, window.Minutes.NotOwed, window.Minutes.Given, window.Minutes.Paid, window.Minutes.Planned);

    public static string Amount(StandingLine standing, int count) => standing.Line.IsProbes ? Say.Probes(count) : Say.Minutes(count);

    /// <summary>What is open of what earlier periods brought forward: 30 minutes.</summary>
    public static string BroughtForward(StandingLine standing) => Pages.Closing.DebtWords.Amount(standing.Balance.BroughtForward.Open, standing.Line.IsProbes);

    /// <summary>As <see cref="Missing"/> where something lacks; else 60 of 60 minutes given in the week of 14 September.</summary>
    public static string InWindow(WaitingWindow waiting)
    {
        var minutes = waiting.Window.Minutes;
        var window = Say.TheWindow(waiting.Standing.Line.Promise.Every, Day.Date(waiting.Window.Window.Days.First));
        return minutes.Lack > 0 ? Missing(waiting)
            : minutes.Due == 0 ? $"nothing due in {window}"
            : $"{Say.Number(Math.Min(minutes.Given, minutes.Due))} of {Amount(waiting.Standing, minutes.Due)} given in {window}";
    }

    /// <summary>30 of 60 minutes not yet given in the week of 14 September; visits are planned for all of it.</summary>
    public static string Missing(WaitingWindow waiting)
    {
        var (line, minutes) = (waiting.Standing, waiting.Window.Minutes);
        var window = Say.TheWindow(line.Line.Promise.Every, Day.Date(waiting.Window.Window.Days.First));
        var planned = minutes.Short == 0 ? "visits are planned for all of it"
            : minutes.Planned > 0 ? $"visits are planned for {Amount(line, minutes.Lack - minutes.Short)} of it"
            : "no visit is planned for it";
        var lack = minutes.Lack == minutes.Due ? Amount(line, minutes.Lack) : $"{Say.Number(minutes.Lack)} of {Amount(line, minutes.Due)}";
        return $"{lack} not yet given in {window}; {planned}";
    }

    /// <summary>The period's figures in a few words: 240 of 300 minutes so far.</summary>
    public static string SoFar(StandingLine standing)
    {
        var balance = standing.Balance;
        if (balance.Open.Windows > 0 && balance.Minutes.Owed == 0)
            return $"{Say.Number(balance.Open.Given)} given, {Amount(standing, balance.Open.Pace)} would keep pace, {Say.Number(balance.Open.Owed)} in all";
        return $"{Say.Number(balance.Minutes.GivenSoFar)} of {Amount(standing, balance.Minutes.DueSoFar)} due so far";
    }

    /// <summary>Nobody named since 8 October: 11 days of the calendar without a visit, 6 of them school days.</summary>
    public static string Of(DaysWithout without)
    {
        var again = without.NamedAgain is { } named ? $" until {Say.Date(named.PlusDays(-1))}" : "";
        var begin = $"Nobody named since {Say.Date(without.Since)}{again}";
        if (without.FirstVisit is { } first && without.CalendarDays == 0)
            return $"{begin}; a visit was given on that day all the same";
        var days = $"{Say.Count(without.CalendarDays, "day")} of the calendar without a visit, {Say.Number(without.SchoolDays)} of them school days";
        return without.FirstVisit is { } visit ? $"{begin}; first visit on {Say.Date(visit)}, after {days}" : $"{begin}: {days}";
    }
}
