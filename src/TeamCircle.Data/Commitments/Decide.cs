using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Commitments;

/// <summary>Records what people decided about something not given in one window. Only the learner's case manager records it.</summary>
public sealed class Decide(Portal portal, TimeProvider clock)
{
    public sealed record Input : DecisionInput
    {
        /// <summary>Exactly one of service and goal.</summary>
        public int? ServiceId { get; init; }
        public int? GoalId { get; init; }

        /// <summary>For a goal that each owner probes: whose probes it is about.</summary>
        public int? OwnerId { get; init; }

        /// <summary>A day of the window.</summary>
        public LocalDate OnDay { get; init; }
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
        await DecisionInput.TakeTurnAsync(db, caller.AgencyId, known.LearnerId, stop);
        if (await Shortfall.ReadAsync(db, caller.AgencyId, known, clock, stop) is not { } shortfall)
            return Outcome<Decided>.Refused(Problem.NotFound);
        var check = await input.CheckAsync(db, caller.AgencyId, input.OnDay, new(shortfall.Today, shortfall.Line.Windows, shortfall.Lack,
            shortfall.SessionsLack, shortfall.ExplainedLeft, shortfall.SessionsExplainedLeft), stop);
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
            OthersPresent = input.Others,
            FamilyToldOn = entry.FamilyToldOn,
            ByDay = entry.ByDay,
            Note = entry.Why!,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Decided>.Of(new(row.Id, row.ServiceId, row.GoalId, verdict.Notices));
    }
}
