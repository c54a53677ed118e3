using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Records what people decided about something brought forward, under the rules of every decision. Only the learner's case manager records it.</summary>
public sealed class DecideDebt(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Debt { get; init; }

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

    public sealed record Decided(int Decision, IReadOnlyList<string> Notices);

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the learner is none of the caller's to decide about, or has no such debt.</summary>
    public Task<Outcome<Decided>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(DecideDebt), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Decided>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Decided>.Refused(Problem.NotFound);
        // Two decisions about one learner come one after the other, so that the second sees what the first left.
        await db.Database.ExecuteSqlAsync($"select 1 from portal.learners where agency_id = {caller.AgencyId} and id = {input.Learner} for no key update", stop);
        if (await DebtSituation.ReadAsync(db, caller.AgencyId, input.Learner, input.Debt, clock, stop) is not { } situation)
            return Outcome<Decided>.Refused(Problem.NotFound);
        if (input.Kind is not { } kind)
            return Outcome<Decided>.Refused(nameof(input.Kind), "Choose what was decided.");
        var people = await DecisionPeople.ReadAsync(db, caller.AgencyId, situation.Today, stop);
        var entry = new DecisionEntry(situation.Debt.Row.OnDay, input.Amount ?? 0, input.Sessions, kind, [.. input.TookPart.Distinct()],
            input.DecidedOn ?? situation.Today, input.FamilyToldOn, input.ByDay, input.Why);
        var open = situation.Debt.Account.Standing.Open;
        var check = DecisionRules.Check(entry, new(situation.Today, null, open.Minutes,
            situation.Debt.Line.Promise.HasSessions ? open.Sessions : null, situation.Explained.Minutes, situation.Explained.Sessions, people.Directors));
        if (entry.TookPart.Any(p => !people.Staff.ContainsKey(p)))
            return Outcome<Decided>.Refused([.. check.Problems, new(nameof(input.TookPart), "Choose people of the agency; write the names of others below.")]);
        if (check.Value is not { } verdict)
            return Outcome<Decided>.Refused(check.Problems);
        var row = Row(caller.AgencyId, input, entry);
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Decided>.Of(new(row.Id, verdict.Notices));
    }

    private static DebtDecisionRow Row(int agency, Input input, DecisionEntry entry) => new()
    {
        AgencyId = agency,
        LearnerId = input.Learner,
        DebtId = input.Debt,
        Amount = entry.Amount,
        Sessions = entry.Sessions ?? 0,
        Kind = entry.Kind,
        DecidedOn = entry.DecidedOn,
        DecidedBy = [.. entry.TookPart],
        OthersPresent = string.IsNullOrWhiteSpace(input.OthersPresent) ? null : input.OthersPresent.Trim(),
        FamilyToldOn = entry.FamilyToldOn,
        ByDay = entry.Kind == DecisionKind.MakeUp ? entry.ByDay : null,
        Note = entry.Why!.Trim(),
    };
}
