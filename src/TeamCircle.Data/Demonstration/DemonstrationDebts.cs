using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Closing;
using TeamCircle.Data.People;
using TeamCircle.Data.Sessions;
using static NodaTime.IsoDayOfWeek;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>
/// What Sefa's closed count brought forward: 30 minutes with the switch that fell on a staff day, decided to be made up, 20 of them given
/// since. And Jonah's award from a settlement, with one session given.
/// </summary>
internal sealed class DemonstrationDebts(Portal portal, TimeProvider clock, Scope scope, SchoolYear year)
{
    private readonly ReadCaller _callers = new(portal, clock);

    public async Task AddAsync(CancellationToken stop)
    {
        var (people, services, debt) = await portal.ReadAsync(scope, async db => (
            await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop),
            await db.Services.Where(s => s.AgencyId == scope.AgencyId).ToDictionaryAsync(s => s.Code, s => (s.Id, Learner: s.LearnerId), stop),
            await db.Debts.Where(d => d.AgencyId == scope.AgencyId && d.Live && d.OnDay <= year.On(5, Sunday)).OrderBy(d => d.Id).Select(d => (int?)d.Id).FirstOrDefaultAsync(stop)), stop);
        if (debt is { } id)
            await MakeUpAsync(people, services["TF19-AT"], id, stop);
        await AwardAsync(people, services["TF12-OT"], stop);
    }

    private async Task MakeUpAsync(Dictionary<string, int> people, (int Id, int Learner) service, int debt, CancellationToken stop)
    {
        var decided = year.On(SchoolYear.ThisWeek - 1, Monday);
        Must(await new DecideDebt(portal, clock).RunAsync(await CallerAsync(people[Marisol], stop), Guid.CreateVersion7(), new()
        {
            Learner = service.Learner,
            Debt = debt,
            Kind = DecisionKind.MakeUp,
            Amount = 30,
            Sessions = 1,
            TookPart = [people[Marisol], people[Tomasz]],
            OthersPresent = "Sefa's father",
            DecidedOn = decided,
            FamilyToldOn = decided,
            ByDay = year.On((2 * SchoolYear.PeriodWeeks) - 1, Friday),
            Why = "The staff day took a visit with the switch that nobody had moved. Tomasz comes twice for a quarter of an hour more.",
        }, stop));
        Must(await LogAsync(people[Tomasz], new()
        {
            Services = [service.Id],
            OnDay = year.On(SchoolYear.ThisWeek - 1, Thursday),
            Start = "13:00",
            End = "13:20",
            PaysOn = year.On(4, Wednesday),
            Note = "Twenty minutes, then she was tired.",
        }, stop));
    }

    private async Task AwardAsync(Dictionary<string, int> people, (int Id, int Learner) service, CancellationToken stop)
    {
        var award = Must(await new AddAward(portal).RunAsync(await CallerAsync(people[Marisol], stop), Guid.CreateVersion7(), new()
        {
            Learner = service.Learner,
            Source = AwardSource.Settlement,
            Paper = "Settlement about the year before, page 2",
            Amount = 120,
            Unit = AwardUnit.Minutes,
            ServiceId = service.Id,
            MayGive = [people[Bram]],
            FromDay = year.FirstDay,
            UntilDay = year.LastDay,
        }, stop));
        Must(await LogAsync(people[Bram], new()
        {
            Services = [service.Id],
            OnDay = year.On(SchoolYear.ThisWeek - 1, Thursday),
            Start = "13:00",
            End = "13:30",
            AwardId = award.Award,
        }, stop));
    }

    private async Task<Outcome<Saved>> LogAsync(int person, LogSession.Input input, CancellationToken stop) =>
        await new LogSession(portal, clock).RunAsync(await CallerAsync(person, stop), Guid.CreateVersion7(), input, stop);

    private async Task<Caller> CallerAsync(int person, CancellationToken stop) => (await _callers.RunAsync(scope.AgencyId, person, stop))!;
}
