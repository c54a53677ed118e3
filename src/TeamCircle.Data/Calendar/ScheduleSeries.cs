using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Schedules visits that recur, to the end of the service or the plan, or 400 days on.</summary>
public sealed class ScheduleSeries(Portal portal)
{
    public sealed record Input : NewVisitInput
    {
        public LocalDate? FirstDay { get; init; }

        /// <summary>The last day that may hold a visit; null: to the end of the service or the plan.</summary>
        public LocalDate? EndsOn { get; init; }
        public CadenceInput Cadence { get; init; } = new();

        /// <summary>Days against which something stands are left out.</summary>
        public bool LeaveOut { get; init; }
    }

    public Task<Outcome<SeriesSaved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(ScheduleSeries), input), db => WorkAsync(db, caller, input, stop), stop);

    /// <summary>What stands against it as far as it is filled in, and the days that would be left out; nothing is written.</summary>
    public Task<SeriesLook?> LookAsync(Caller caller, Input input, CancellationToken stop = default) => portal.ReadAsync(Scope.Of(caller), async db =>
    {
        var read = await VisitSpec.ReadAsync(db, caller, input, stop);
        if (read.Value is not { } spec || Problems(input, caller.Today).Any())
            return null;
        var series = SeriesWriter.Row(spec, input.Cadence.Cadence.Rule(await WeekStartAsync(db, caller, stop)), input.FirstDay!.Value, input.EndsOn);
        var days = SeriesPlan.Occurrences(series, series.FirstDay, await SeriesPlan.ReachAsync(db, spec, series.FirstDay, series.EndsOn, caller.Today, stop));
        if (days.Count == 0)
            return new SeriesLook([], [], 0);
        var plan = SeriesPlan.Of(days, await DayBook.ReadAsync(db, spec, days[0], days[^1], [], stop));
        return new([.. plan.Refused, .. plan.ToConfirm], plan.Closed, plan.Stands.Count);
    }, stop);

    private static async Task<Outcome<SeriesSaved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var read = await VisitSpec.ReadAsync(db, caller, input, stop);
        Problem[] problems = [.. read.Problems, .. Problems(input, caller.Today)];
        if (problems.Length > 0)
            return Outcome<SeriesSaved>.Refused(problems);
        var rule = input.Cadence.Cadence.Rule(await WeekStartAsync(db, caller, stop));
        return await SeriesWriter.AddAsync(db, read.Value!, SeriesWriter.Row(read.Value!, rule, input.FirstDay!.Value, input.EndsOn),
            caller.Today, new(input.LeaveOut, input.Confirmed), [], stop);
    }

    internal static Task<IsoDayOfWeek> WeekStartAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.WeekStart).SingleAsync(stop);

    private static IEnumerable<Problem> Problems(Input input, LocalDate today)
    {
        foreach (var problem in input.Cadence.Cadence.Check())
            yield return problem with { Field = $"{nameof(Input.Cadence)}.{problem.Field}" };
        if (input.FirstDay is not { } first)
            yield return new(nameof(Input.FirstDay), "Choose the first day.");
        else if (first < today)
            yield return new(nameof(Input.FirstDay), "That day is past. Begin today or later.");
        else if (input.EndsOn < first)
            yield return new(nameof(Input.EndsOn), "The last day comes before the first.");
    }
}

/// <summary>What a series would come to.</summary>
/// <param name="Clashes">What stands against some of its days.</param>
/// <param name="Closed">Days without school: no visit.</param>
/// <param name="Visits">How many visits would be written.</param>
public sealed record SeriesLook(IReadOnlyList<Clash> Clashes, IReadOnlyList<ClosedDay> Closed, int Visits);
