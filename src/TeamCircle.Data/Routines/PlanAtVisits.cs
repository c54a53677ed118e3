using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Says at which series and at which visits on their own a routine is practised, from today on. What has been stays as it was planned.</summary>
public sealed class PlanAtVisits(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Routine { get; init; }

        /// <summary>What the form showed: nothing else is changed. Keys as <see cref="PracticeSlot.Key"/>.</summary>
        public string[] Shown { get; init; } = [];

        /// <summary>What was ticked of it.</summary>
        public string[] Ticked { get; init; } = [];
    }

    public sealed record Saved(int Routine, int Slots);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(PlanAtVisits), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        if (!await db.Routines.AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.Id == input.Routine && r.Live, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var ticked = input.Ticked.Intersect(input.Shown).ToHashSet();
        var visits = await db.Visits.AsNoTracking()
            .Where(v => v.AgencyId == agency && v.LearnerId == learner && v.Live && v.State == VisitState.Planned && v.OnDay >= caller.Today)
            .Select(v => new { v.Id, v.SeriesId }).ToListAsync(stop);
        var shown = visits.Select(v => (v.Id, Key: v.SeriesId is { } series ? $"s{series}" : $"v{v.Id}")).Where(v => input.Shown.Contains(v.Key)).ToList();
        var ids = shown.Select(v => v.Id).ToList();
        var standing = await db.VisitRoutines.Where(r => r.AgencyId == agency && r.LearnerId == learner && r.RoutineId == input.Routine && ids.Contains(r.VisitId)).ToListAsync(stop);
        var wanted = shown.Where(v => ticked.Contains(v.Key)).Select(v => v.Id).ToHashSet();
        db.RemoveRange(standing.Where(r => !wanted.Contains(r.VisitId)));
        db.AddRange(wanted.Except(standing.Select(r => r.VisitId)).Select(visit =>
            new VisitRoutineRow { AgencyId = agency, LearnerId = learner, VisitId = visit, RoutineId = input.Routine }));
        await PlanSeriesAsync(db, agency, input, [.. visits.Select(v => v.SeriesId).OfType<int>().Distinct()], ticked, stop);
        return Outcome<Saved>.Of(new(input.Routine, ticked.Count));
    }

    /// <summary>New visits of a series begin with its routines.</summary>
    private static async Task PlanSeriesAsync(PortalDb db, int agency, Input input, IReadOnlyList<int> series, HashSet<string> ticked, CancellationToken stop)
    {
        var standing = await db.SeriesRoutines.Where(r => r.AgencyId == agency && r.LearnerId == input.Learner && r.RoutineId == input.Routine).ToListAsync(stop);
        var shown = series.Where(s => input.Shown.Contains($"s{s}")).ToList();
        db.RemoveRange(standing.Where(r => shown.Contains(r.SeriesId) && !ticked.Contains($"s{r.SeriesId}")));
        db.AddRange(shown.Where(s => ticked.Contains($"s{s}")).Except(standing.Select(r => r.SeriesId)).Select(s =>
            new SeriesRoutineRow { AgencyId = agency, LearnerId = input.Learner, SeriesId = s, RoutineId = input.Routine }));
    }
}
