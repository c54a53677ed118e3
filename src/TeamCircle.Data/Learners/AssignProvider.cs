using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>Names somebody who may give a service, between two days. Several may be named; nobody is an answer too.</summary>
public sealed class AssignProvider(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int Service { get; set; }
        public int? Person { get; set; }
        public LocalDate? FromDay { get; set; }
        public LocalDate? ToDay { get; set; }
    }

    /// <param name="JoinedTeam">Whether the person came on the learner's team by it.</param>
    public sealed record Saved(int Service, bool JoinedTeam);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(AssignProvider), input),
            db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var agency = caller.AgencyId;
        if (await db.Services.SingleOrDefaultAsync(s => s.AgencyId == agency && s.LearnerId == input.Learner && s.Id == input.Service, stop) is not { } line)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var named = await db.Assignments.Where(a => a.AgencyId == agency && a.ServiceId == line.Id)
            .Select(a => new NamedPerson(a.PersonId, a.FromDay, a.ToDay)).ToListAsync(stop);
        var givers = await ReadStaff.GiversAsync(db, agency, caller.Today, stop);
        Problem[] problems = [.. AssignmentRules.Check(
            input.Person, input.FromDay, input.ToDay, new(line.FromDay, line.ToDay), named, givers.Select(p => p.Id).ToHashSet())];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var (person, from, to) = (input.Person!.Value, input.FromDay!.Value, input.ToDay!.Value);
        if (await ClosedCounts.FindAsync(db, agency, input.Learner, [new(from, to)], stop) is { } closed)
            return Outcome<Saved>.Refused(closed);
        db.Add(new AssignmentRow { AgencyId = agency, LearnerId = input.Learner, ServiceId = line.Id, PersonId = person, FromDay = from, ToDay = to });
        var joined = await JoinTeamAsync(db, caller, input.Learner, new(person, from, to), stop);
        return Outcome<Saved>.Of(new(line.Id, joined));
    }

    /// <summary>Who is named works on the team: without a relation they would not see the learner.</summary>
    internal static async Task<bool> JoinTeamAsync(PortalDb db, Caller caller, int learner, NamedPerson named, CancellationToken stop)
    {
        var stands = await db.Relations
            .Where(r => r.AgencyId == caller.AgencyId && r.LearnerId == learner && r.PersonId == named.PersonId)
            .Select(r => new StandingDates(r.PersonId, r.Kind, r.FromDay, r.ToDay)).ToListAsync(stop);
        if (stands.Exists(s => s.Kind is Relation.Team or Relation.CaseManager or Relation.Assistant && s.Touches(named.FromDay, named.ToDay)))
            return false;
        db.Add(new RelationRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = learner,
            PersonId = named.PersonId,
            Kind = Relation.Team,
            FromDay = LocalDate.Min(named.FromDay, caller.Today), // they prepare before the first visit
        });
        return true;
    }
}
