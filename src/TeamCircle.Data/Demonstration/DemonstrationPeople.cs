using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>
/// The people around the lessons: an assistant under Bram, whose minutes count on that service, with a visit to countersign and a supervision visit that was made, a substitute for the next
/// of Odalys's visits with Wren, and two who have read Wren's plan.
/// </summary>
internal sealed class DemonstrationPeople(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock)
{
    private sealed record Facts(Dictionary<string, int> People, int Wren, int Service, VisitRow? Next, LocalDate Before);

    public async Task AddAsync(LocalDate today, CancellationToken stop)
    {
        var facts = await ReadAsync(today, stop);
        var (marisol, bram, odalys) = (await CallerAsync(facts, Marisol, stop), await CallerAsync(facts, Bram, stop), await CallerAsync(facts, Odalys, stop));
        await AmendAsync(marisol, facts, today, stop);
        await AssistantAsync(marisol, bram, facts, today, stop);
        if (facts.Next is { } next)
            Must(await new SendSubstitute(portal).RunAsync(odalys, Guid.CreateVersion7(), new() { Visit = next.Id, Version = next.Version, Person = facts.People[Runa], Confirmed = true }, stop));
        foreach (var caller in new[] { odalys, marisol })
            await AcknowledgeAsync(caller, facts.Wren, stop);
    }

    /// <summary>What is there already: Odalys's next visit after today, and the day of the last that Bram logged, which leaves the evening free.</summary>
    private Task<Facts> ReadAsync(LocalDate today, CancellationToken stop) => portal.ReadAsync(scope, async db =>
    {
        var people = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
        var wren = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
        var (bram, odalys) = (people[Bram], people[Odalys]);
        var service = await db.Services.Where(s => s.AgencyId == scope.AgencyId && s.LearnerId == wren && s.Discipline == Discipline.OccupationalTherapy).OrderBy(s => s.Id).Select(s => s.Id).FirstAsync(stop);
        var next = await db.Visits.Where(v => v.AgencyId == scope.AgencyId && v.LearnerId == wren && v.ProviderId == odalys && v.Live && v.State == VisitState.Planned && v.OnDay > today)
            .OrderBy(v => v.OnDay).ThenBy(v => v.StartTime).FirstOrDefaultAsync(stop);
        var before = await db.Visits.Where(v => v.AgencyId == scope.AgencyId && v.LearnerId == wren && v.ProviderId == bram && v.Live && v.State == VisitState.Logged && v.OnDay < today)
            .MaxAsync(v => v.OnDay, stop);
        return new Facts(people, wren, service, next, before);
    }, stop);

    /// <summary>The team agreed that an assistant's minutes count, from the Monday of the week in which the assistant began; the amount stays as it was.</summary>
    private async Task AmendAsync(Caller marisol, Facts facts, LocalDate today, CancellationToken stop)
    {
        var (line, now) = await portal.ReadAsync(scope, async db => (
            await db.Services.SingleAsync(s => s.AgencyId == scope.AgencyId && s.Id == facts.Service, stop),
            await db.ServiceVersions.Where(v => v.AgencyId == scope.AgencyId && v.ServiceId == facts.Service).OrderBy(v => v.FromDay).LastAsync(stop)), stop);
        Must(await new AmendService(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = facts.Wren,
            Service = line.Id,
            Version = line.Version,
            FromDay = today.PlusDays(-28).With(DateAdjusters.PreviousOrSame(IsoDayOfWeek.Monday)),
            Amount = new()
            {
                Quantity = now.Quantity,
                Sessions = now.Sessions,
                EveryUnit = line.EveryUnit,
                EveryCount = line.EveryCount,
                AssistantsCount = true,
                PlanWords = $"{now.PlanWords} An assistant may give some of them, supervised by the therapist.",
                Reason = "The team met with Ines: an assistant can give one of the two sessions when Bram cannot come twice.",
            },
        }, stop));
    }

    private async Task AssistantAsync(Caller marisol, Caller bram, Facts facts, LocalDate today, CancellationToken stop)
    {
        var joss = facts.People[Joss];
        Must(await new AddTeamMember(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = facts.Wren,
            Person = joss,
            Kind = Relation.Assistant,
            FromDay = today.PlusDays(-28),
            Supervisor = facts.People[Bram],
        }, stop));
        Must(await new SetSupervision(portal).RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = facts.Wren, Assistant = joss, EveryUnit = EveryUnit.Week, EveryCount = 2, FromDay = today.PlusDays(-28) }, stop));
        Must(await new NoteObservation(portal).RunAsync(bram, Guid.CreateVersion7(), new()
        {
            Learner = facts.Wren,
            Assistant = joss,
            OnDay = today.PlusDays(-20),
            Minutes = 30,
            Note = "Waits in silence as the card says. Next time: the weight of the arm before the cue, not after.",
        }, stop));
        var own = await CallerAsync(facts, Joss, stop);
        Must(await new LogSession(portal, clock).RunAsync(own, Guid.CreateVersion7(), new()
        {
            Services = [facts.Service],
            OnDay = LocalDate.Max(facts.Before, today.PlusDays(-27)),
            Start = "18:30",
            End = "18:50",
            Note = "Two presses on her own. The towel was still warm.",
        }, stop));
    }

    private async Task AcknowledgeAsync(Caller caller, int learner, CancellationToken stop)
    {
        var plan = await portal.ReadAsync(scope, db => PlanStates.FindAsync(db, caller, learner, stop), stop);
        if (plan is not null)
            Must(await new Acknowledge(portal).RunAsync(caller, Guid.CreateVersion7(), new() { Learner = learner, State = plan.Number }, stop));
    }

    private async Task<Caller> CallerAsync(Facts facts, string email, CancellationToken stop) => (await callers.RunAsync(scope.AgencyId, facts.People[email], stop))!;
}
