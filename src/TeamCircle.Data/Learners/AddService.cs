using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>Adds a service to a plan, with its first amount.</summary>
public sealed class AddService(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Plan { get; set; }

        /// <summary>Empty: made from the learner's code.</summary>
        public string? Code { get; set; }
        public Discipline Discipline { get; set; }
        public ServiceKind Kind { get; set; }
        public Place Place { get; set; }
        public SessionFormat Format { get; set; }
        public LineTerms Terms { get; set; }
        public CoTreatment CoTreatment { get; set; }
        public ShortWindow? ShortWindow { get; set; }
        public Wording? Wording { get; set; }
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
        public AmountInput Amount { get; set; } = new();
    }

    public sealed record Saved(int Service);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AddService), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (await db.Plans.SingleOrDefaultAsync(p => p.AgencyId == agency && p.LearnerId == input.Learner && p.Id == input.Plan, stop) is not { } plan)
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. ServiceRules.Check(input.Amount.Entry, input.Wording, input.FromDay, input.ToDay, new(plan.StartDay, plan.EndDay))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(input.FromDay!.Value, input.ToDay!.Value)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        var service = await RowAsync(db, agency, input, stop);
        db.Add(service);
        await db.SaveChangesAsync(stop);
        db.Add(input.Amount.Version(service, service.Code, service.FromDay));
        return Outcome<Saved>.Of(new(service.Id));
    }

    private static async Task<ServiceRow> RowAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        var before = await db.Services.IgnoreQueryFilters().Where(s => s.AgencyId == agency && s.LearnerId == input.Learner)
            .Select(s => s.Position).ToListAsync(stop);
        var learner = await db.Learners.Where(l => l.AgencyId == agency && l.Id == input.Learner).Select(l => l.Code).SingleAsync(stop);
        return new()
        {
            AgencyId = agency,
            LearnerId = input.Learner,
            PlanId = input.Plan,
            Code = string.IsNullOrWhiteSpace(input.Code) ? $"{learner}-{before.Count + 1}" : input.Code.Trim(),
            Position = before.DefaultIfEmpty().Max() + 1,
            Discipline = input.Discipline,
            Kind = input.Kind,
            Place = input.Place,
            Format = input.Format,
            Terms = input.Terms,
            CoTreatment = input.CoTreatment,
            ShortWindow = input.ShortWindow,
            EveryUnit = input.Amount.EveryUnit,
            EveryCount = input.Amount.EveryCount!.Value,
            FromDay = input.FromDay!.Value,
            ToDay = input.ToDay!.Value,
            Wording = input.Wording,
        };
    }
}
