using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Family;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>Wren's file is open to an outside reviewer for some weeks, and the end of one of her visits was remembered in two ways.</summary>
internal sealed class DemonstrationDisputes(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock, SchoolYear year)
{
    public const string Reviewer = "corin@monitoring.example";

    private sealed record Contested(Guid Session, Guid Visit, LocalDate On, LocalTime Start, LocalTime End);

    private Dictionary<string, int> _people = [];
    private int _wren;

    public async Task AddAsync(CancellationToken stop)
    {
        var contested = await portal.ReadAsync(scope, async db =>
        {
            _people = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
            _wren = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
            return await (
                from s in db.Sessions
                join v in db.Services on new { s.AgencyId, Id = s.ServiceId } equals new { v.AgencyId, v.Id }
                where s.AgencyId == scope.AgencyId && s.LearnerId == _wren && v.Code == "TF07-PT" && s.Live && s.Outcome == VisitOutcome.Given
                    && s.OnDay >= year.On(SchoolYear.PeriodWeeks, IsoDayOfWeek.Monday)
                orderby s.OnDay
                select new Contested(s.Id, s.VisitId, s.OnDay, s.StartTime, s.EndTime)).FirstOrDefaultAsync(stop);
        }, stop);
        var marisol = await CallerAsync(Marisol, stop);
        await OpenFileAsync(marisol, stop);
        if (contested is not null)
            await ContestAsync(contested, marisol, stop);
    }

    private async Task OpenFileAsync(Caller marisol, CancellationToken stop)
    {
        var person = Must(await new InvitePerson(portal).RunAsync(
            await CallerAsync(Dele, stop), Guid.CreateVersion7(), new() { Email = Reviewer, Name = "Corin Aldaway", Role = Role.Reviewer }, stop)).Person;
        Must(await new AddTeamMember(portal).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = _wren,
            Person = person,
            Kind = Relation.Reviewer,
            FromDay = marisol.Today,
            ToDay = marisol.Today.PlusDays(30),
            Ground = "Letter of the state monitoring office about this year's sample of files",
        }, stop));
    }

    private async Task ContestAsync(Contested visit, Caller marisol, CancellationToken stop)
    {
        var shorter = Must(await new CorrectSession(portal, clock).RunAsync(await CallerAsync(Priya, stop), Guid.CreateVersion7(), new()
        {
            Session = visit.Session,
            Start = Typed(visit.Start),
            End = Typed(visit.End.PlusMinutes(-10)),
            Why = "My own notes have me back in the car ten minutes earlier",
        }, stop)).Sessions[0];
        Must(await new CorrectSession(portal, clock).RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Session = shorter,
            Start = Typed(visit.Start),
            End = Typed(visit.End),
            Why = "Priya looked again: the notes were of the Friday before",
        }, stop));
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, stop: stop);
        work.Db.Add(new FamilyRemarkRow
        {
            AgencyId = scope.AgencyId,
            LearnerId = _wren,
            VisitId = visit.Visit,
            Kind = RemarkKind.NotAsRemembered,
            Words = "I have on my calendar that Priya stayed until the bread was in the oven, not that she left early.",
            SaidBy = "Ines Belmares",
            SaidOn = marisol.Today,
            EnteredBy = marisol.PersonId,
            EnteredAt = Now,
            Answer = "We looked at it together, and the end is right again.",
            AnsweredBy = marisol.PersonId,
            AnsweredAt = Now,
        });
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }

    private Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    private static string Typed(LocalTime time) => time.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);

    private async Task<Caller> CallerAsync(string email, CancellationToken stop) => (await callers.RunAsync(scope.AgencyId, _people[email], stop))!;
}
