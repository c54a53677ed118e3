using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Routines;

/// <summary>Sets a hold on a routine, one of its steps, a part of "How we teach", or a service. It stops practising at once.</summary>
public sealed class SetHold(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>Exactly one of this, <see cref="Part"/> and <see cref="Service"/>.</summary>
        public int? Routine { get; init; }

        /// <summary>The key of one step; null: the whole routine.</summary>
        public string? Step { get; init; }

        [EnumDataType(typeof(TeachPart))]
        public TeachPart? Part { get; init; }
        public int? Service { get; init; }
        public string? Reason { get; init; }

        [EnumDataType(typeof(HoldWord))]
        public HoldWord? ToldAs { get; init; }
        public string? ToldBy { get; init; }
        public LocalDate? ToldOn { get; init; }
        public LocalTime? ToldTime { get; init; }

        internal HoldEntry Entry => new(new(Routine, Step, Part, Service), Reason, ToldAs, ToldBy, ToldOn, ToldTime);
    }

    public sealed record Saved(int Hold);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(SetHold), input), db => InAsync(db, caller, input, stop), stop);

    internal async Task<Outcome<Saved>> InAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!HoldRules.MaySet(caller, input.Learner) || (input.Routine is { } routine && !await IsThereAsync(db, caller.AgencyId, input.Learner, routine, input.Step, stop))
            || (input.Service is { } service && !await db.Services.AnyAsync(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner && s.Id == service, stop)))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
        Problem[] problems = [.. HoldRules.Check(input.Entry, AgencyClock.Now(clock, zone))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var isOwn = input.ToldAs == HoldWord.Own;
        var hold = new HoldRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            RoutineId = input.Routine,
            StepKey = input.Step,
            TeachPart = input.Part,
            ServiceId = input.Service,
            Reason = input.Reason!.Trim(),
            ToldAs = input.ToldAs!.Value,
            ToldBy = isOwn ? null : input.ToldBy!.Trim(),
            ToldOn = isOwn ? null : input.ToldOn,
            ToldTime = isOwn ? null : input.ToldTime,
            SetBy = caller.PersonId,
            SetAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        };
        db.Add(hold);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(hold.Id));
    }

    /// <summary>The learner has that routine, ended or not, and its newest card has that step.</summary>
    private static async Task<bool> IsThereAsync(PortalDb db, int agency, int learner, int routine, string? step, CancellationToken stop)
    {
        if (step is null)
            return await db.Routines.AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.Id == routine, stop);
        var card = await db.RoutineVersions.Where(v => v.AgencyId == agency && v.LearnerId == learner && v.RoutineId == routine)
            .OrderByDescending(v => v.Number).Select(v => v.Content).FirstOrDefaultAsync(stop);
        return card is not null && RoutineContent.Read(card).Steps.Any(s => s.Key == step);
    }
}
