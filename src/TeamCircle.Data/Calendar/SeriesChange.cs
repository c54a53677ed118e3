using TeamCircle.Core;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Calendar;

/// <summary>How a series is to go on.</summary>
public abstract record SeriesInput : VisitInput
{
    public CadenceInput Cadence { get; init; } = new();
    public LocalDate? EndsOn { get; init; }

    /// <summary>Days against which something stands are left out.</summary>
    public bool LeaveOut { get; init; }
}

/// <summary>The part that changing all that follow and changing all have in common.</summary>
internal static class SeriesChange
{
    public static async Task<Outcome<SeriesSaved>> RunAsync(
        PortalDb db, Caller caller, VisitRow visit, LocalDate from, SeriesInput input, CancellationToken stop)
    {
        if (await PlannedVisit.SeriesAsync(db, visit, stop) is not { } series)
            return Outcome<SeriesSaved>.Refused("", "This visit belongs to no series. Change it by itself.");
        var begins = LocalDate.Max(from, series.FirstDay);
        var read = await (await VisitSpec.OfAsync(db, series, stop)).WithAsync(db, input, stop);
        List<Problem> problems = [.. read.Problems, .. input.Cadence.Cadence.Check().Select(p => p with { Field = $"{nameof(input.Cadence)}.{p.Field}" })];
        if (input.EndsOn < begins)
            problems.Add(new(nameof(input.EndsOn), "The last day comes before the first that is to change."));
        if (problems.Count > 0)
            return Outcome<SeriesSaved>.Refused(problems);
        var rule = input.Cadence.Cadence.Rule(await ScheduleSeries.WeekStartAsync(db, caller, stop));
        return await FollowingVisits.ReplaceAsync(
            db, series, read.Value!, new(begins, visit.Id, rule, input.EndsOn), caller.Today, new(input.LeaveOut, input.Confirmed), stop);
    }
}
