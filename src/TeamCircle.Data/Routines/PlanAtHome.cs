using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Says on which weekdays, or on which one day, a routine is practised at home between visits, and by whom.</summary>
public sealed class PlanAtHome(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Routine { get; init; }

        /// <summary>The weekdays that hold from now on; others end.</summary>
        public IsoDayOfWeek[] Weekdays { get; init; } = [];

        /// <summary>One day more; null: none. It can't be past.</summary>
        public LocalDate? OnDay { get; init; }

        /// <summary>Who practises, in words.</summary>
        [StringLength(100, ErrorMessage = "Say in under 100 letters who practises.")]
        public string? Who { get; init; }
    }

    public sealed record Saved(int Routine, int Weekdays);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(PlanAtHome), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        if (!await db.Routines.AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.Id == input.Routine && r.Live, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.OnDay < caller.Today)
            return Outcome<Saved>.Refused(nameof(input.OnDay), "That day is past.");
        var who = string.IsNullOrWhiteSpace(input.Who) ? null : input.Who.Trim();
        var weekdays = input.Weekdays.Where(d => d is >= IsoDayOfWeek.Monday and <= IsoDayOfWeek.Sunday).ToHashSet();
        var standing = await db.HomePractice.Where(h => h.AgencyId == agency && h.LearnerId == learner && h.RoutineId == input.Routine).ToListAsync(stop);
        var ended = standing.Where(h => h.Weekday is { } day && (!weekdays.Contains(day) || h.Who != who)).ToList();
        foreach (var row in ended)
            (row.Live, row.TakenBackReason) = (false, "planned otherwise");
        var kept = standing.Except(ended).ToList();
        db.AddRange(weekdays.Where(day => !kept.Exists(k => k.Weekday == day)).Select(day => Row(day, null)));
        if (input.OnDay is { } one && !kept.Exists(k => k.OnDay == one))
            db.Add(Row(null, one));
        return Outcome<Saved>.Of(new(input.Routine, weekdays.Count));

        HomePracticeRow Row(IsoDayOfWeek? weekday, LocalDate? day) =>
            new() { AgencyId = agency, LearnerId = learner, RoutineId = input.Routine, Weekday = weekday, OnDay = day, Who = who };
    }
}
