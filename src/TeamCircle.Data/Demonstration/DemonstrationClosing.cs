using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.People;
using TeamCircle.Data.Closing;
using TeamCircle.Data.People;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>Sefa's count for the first reporting period is closed, with Marisol's word on what stood in the way; and a director, who can open it again.</summary>
internal sealed class DemonstrationClosing(Portal portal, ClosePeriod close, ReadCaller callers, Scope scope)
{
    public const string Director = "solveig@tallowfern.example";

    public async Task AddAsync(CancellationToken stop)
    {
        var (people, sefa, period) = await portal.ReadAsync(scope, async db => (
            await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop),
            await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF19").Select(l => l.Id).SingleAsync(stop),
            await db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).Select(p => p.Id).FirstAsync(stop)), stop);
        Must(await new InvitePerson(portal).RunAsync(
            await CallerAsync(people[Dele], stop), Guid.CreateVersion7(), new() { Email = Director, Name = "Solveig Harrow", Role = Role.Director }, stop));
        var marisol = await CallerAsync(people[Marisol], stop);
        var count = (await new ReadCount(portal).RunAsync(marisol, Scope.Of(marisol), sefa, period, stop))!;
        Must(await close.RunAsync(marisol, Guid.CreateVersion7(), new()
        {
            Learner = sefa,
            Period = period,
            Mark = count.Mark,
            Credential = "M.Ed., special education teacher, licence 204",
            Words = count.Obstacles.ToDictionary(o => o.Obstacle.Key, o => (string?)Word(o.Obstacle.Kind)),
        }, stop));
    }

    private static string Word(ObstacleKind kind) => kind switch
    {
        ObstacleKind.ReportNotBegun or ObstacleKind.ReportNotFinished => "This one was still written on paper, and lies in the file. From the next period on they are written here.",
        ObstacleKind.Undecided => "The family was away when the team met. It is on the list of the next meeting.",
        _ => "I asked, and nobody remembers enough to set it right.",
    };

    private async Task<Caller> CallerAsync(int person, CancellationToken stop) => (await callers.RunAsync(scope.AgencyId, person, stop))!;
}
