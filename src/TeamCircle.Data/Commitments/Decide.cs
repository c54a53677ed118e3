using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Commitments;

/// <summary>Records what people decided about something not given in one window. Only the learner's case manager records it.</summary>
public sealed class Decide(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        /// <summary>Exactly one of service and goal.</summary>
        public int? ServiceId { get; init; }
        public int? GoalId { get; init; }

        /// <summary>For a goal that each owner probes: whose probes it is about.</summary>
        public int? OwnerId { get; init; }

        /// <summary>A day of the window.</summary>
        public LocalDate OnDay { get; init; }

        /// <summary>Minutes, or probes.</summary>
        public int? Amount { get; init; }
        public int? Sessions { get; init; }

        /// <summary>No default: nothing is proposed.</summary>
        [EnumDataType(typeof(DecisionKind))]
        public DecisionKind? Kind { get; init; }
        public int[] TookPart { get; init; } = [];

        /// <summary>People without an account who took part: family, physician, nurse.</summary>
        [StringLength(500)]
        public string? OthersPresent { get; init; }

        /// <summary>Null: today.</summary>
        public LocalDate? DecidedOn { get; init; }
        public LocalDate? FamilyToldOn { get; init; }
        public LocalDate? ByDay { get; init; }

        [StringLength(2000)]
        public string? Why { get; init; }
    }

    public sealed record Decided(int Decision, int? ServiceId, int? GoalId, IReadOnlyList<string> Notices);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the learner is none of the caller's to decide about.</summary>
    public Task<Outcome<Decided>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(Decide), input), db => DecideAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Decided>> DecideAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var about = await DecisionAbout.FindAsync(db, caller.AgencyId, input.ServiceId, input.GoalId, input.OwnerId, input.OnDay, stop);
        if (about is not { } known || !caller.IsStaff || !caller.Manages(known.LearnerId))
            return Outcome<Decided>.Refused(Problem.NotFound);
        // Two decisions about one learner come one after the other, so that the second sees what the first left undecided.
        await db.Database.ExecuteSqlAsync($"select 1 from portal.learners where agency_id = {caller.AgencyId} and id = {known.LearnerId} for no key update", stop);
        if (await Shortfall.ReadAsync(db, caller.AgencyId, known, clock, stop) is not { } shortfall)
            return Outcome<Decided>.Refused(Problem.NotFound);
        if (input.Kind is not { } kind)
            return Outcome<Decided>.Refused(nameof(input.Kind), "Choose what was decided.");
        var people = await DecisionPeople.ReadAsync(db, caller.AgencyId, shortfall.Today, stop);
        var entry = new DecisionEntry(input.OnDay, input.Amount ?? 0, input.Sessions, kind, [.. input.TookPart.Distinct()],
            input.DecidedOn ?? shortfall.Today, input.FamilyToldOn, input.ByDay, input.Why);
        var check = DecisionRules.Check(entry, new(shortfall.Today, shortfall.Line.Windows, shortfall.Lack, shortfall.SessionsLack,
            shortfall.ExplainedLeft, shortfall.SessionsExplainedLeft, people.Directors));
        if (entry.TookPart.Any(p => !people.Staff.ContainsKey(p)))
            return Outcome<Decided>.Refused([.. check.Problems, new(nameof(input.TookPart), "Choose people of the agency; write the names of others below.")]);
        if (check.Value is not { } verdict)
            return Outcome<Decided>.Refused(check.Problems);
        return await AddAsync(db, caller, input, known, verdict, stop);
    }

    private static async Task<Outcome<Decided>> AddAsync(
        PortalDb db, Caller caller, Input input, DecisionAbout about, DecisionVerdict verdict, CancellationToken stop)
    {
        var entry = verdict.Entry;
        var row = new DecisionRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = about.LearnerId,
            ServiceId = about.ServiceId,
            GoalId = about.GoalId,
            OwnerId = about.OwnerId,
            OnDay = entry.OnDay,
            Amount = entry.Amount,
            Sessions = entry.Sessions,
            Kind = entry.Kind,
            DecidedOn = entry.DecidedOn,
            DecidedBy = [.. entry.TookPart],
            OthersPresent = string.IsNullOrWhiteSpace(input.OthersPresent) ? null : input.OthersPresent.Trim(),
            FamilyToldOn = entry.FamilyToldOn,
            ByDay = entry.ByDay,
            Note = entry.Why!.Trim(),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Decided>.Of(new(row.Id, row.ServiceId, row.GoalId, verdict.Notices));
    }
}
