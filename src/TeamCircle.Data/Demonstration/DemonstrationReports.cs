using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Reports;
using TeamCircle.Data.People;
using TeamCircle.Data.Reports;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>Wren's progress reports: the first period's is finished and shared with her mother, the second one's is being written.</summary>
internal sealed class DemonstrationReports(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock)
{
    private static readonly (string Goal, string By, ReportStatus Status, string Words)[] First =
    [
        ("TF07-LOOKS", Odalys, ReportStatus.EnoughProgress, "Wren looks sooner, and longer, when one thing lies on the black cloth and nobody talks. In her chair she does it more often than on her side."),
        ("TF07-PRESSES", Bram, ReportStatus.NotEnough, "She presses when the can is in sight, and her elbow tires after ten minutes. The mount moved twice; since it is fixed there are too few days to say more."),
        ("TF07-HEAD", Priya, ReportStatus.Maintained, "She keeps her head up as long as before the summer. Her new chair came in the last week."),
        ("TF07-MORE", Marisol, ReportStatus.NeedsMeeting, "At home her mother sees her ask for more at supper; our probes do not show it yet. We have to agree on what counts as asking."),
    ];

    private Dictionary<string, int> _people = [];
    private Dictionary<string, int> _goals = [];
    private int _wren;

    public async Task AddAsync(CancellationToken stop)
    {
        int[] periods = [];
        ILookup<int, int> owners = null!;
        await portal.ReadAsync(scope, async db =>
        {
            _people = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
            _wren = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
            _goals = await db.Goals.Where(g => g.AgencyId == scope.AgencyId && g.LearnerId == _wren).ToDictionaryAsync(g => g.Code, g => g.Id, stop);
            var rows = await db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).Take(2).ToListAsync(stop);
            periods = [.. rows.Select(p => p.Id)];
            owners = await ReportWork.OwnersAsync(db, scope.AgencyId, _wren, rows[0], stop);
            return true;
        }, stop);
        var marisol = await CallerAsync(_people[Marisol], stop);
        await FinishAsync(await BeginAsync(marisol, periods[0], stop), marisol, [.. owners.SelectMany(o => o).Distinct()], stop);
        var second = await BeginAsync(marisol, periods[1], stop);
        await new WritePart(portal, clock).RunAsync(await CallerAsync(_people[Odalys], stop), Guid.CreateVersion7(), new()
        {
            Report = second,
            Goal = _goals["TF07-LOOKS"],
            Words = "With the lamp behind her she finds the shaker on the left as well. On her side it is still chance.",
        }, stop);
    }

    private async Task<int> BeginAsync(Caller marisol, int period, CancellationToken stop) =>
        Must(await new BeginReport(portal, clock).RunAsync(marisol, Guid.CreateVersion7(), new() { Learner = _wren, Period = period }, stop)).Report;

    private async Task FinishAsync(int report, Caller marisol, IReadOnlyList<int> owners, CancellationToken stop)
    {
        foreach (var (goal, by, status, words) in First)
        {
            var writer = await CallerAsync(_people[by], stop);
            Must(await new WritePart(portal, clock).RunAsync(writer, Guid.CreateVersion7(), new() { Report = report, Goal = _goals[goal], Words = words }, stop));
            Must(await new JoinGoal(portal, clock).RunAsync(writer, Guid.CreateVersion7(), new() { Report = report, Goal = _goals[goal], Version = 1, Status = status, Words = words }, stop));
        }
        foreach (var owner in owners.Where(o => o != marisol.PersonId))
            await SignAsync(await CallerAsync(owner, stop), report, finish: false, stop);
        await SignAsync(marisol, report, finish: true, stop);
        var version = await portal.ReadAsync(scope, db => db.Reports.Where(r => r.AgencyId == scope.AgencyId && r.Id == report).Select(r => r.Version).SingleAsync(stop), stop);
        Must(await new ShareReport(portal, clock).RunAsync(marisol, Guid.CreateVersion7(), new() { Report = report, Version = version, Share = true }, stop));
    }

    private async Task SignAsync(Caller who, int report, bool finish, CancellationToken stop)
    {
        var hash = await portal.ReadAsync(scope, db => db.Reports.Where(r => r.AgencyId == scope.AgencyId && r.Id == report).Select(r => r.Hash).SingleAsync(stop), stop);
        Must(await new SignReport(portal, clock).RunAsync(who, Guid.CreateVersion7(), new()
        {
            Report = report,
            Hash = hash,
            Credential = finish ? "special education teacher, licence 555-0171" : $"licence 555-01{who.PersonId:00}",
            Finish = finish,
        }, stop));
    }

    private async Task<Caller> CallerAsync(int person, CancellationToken stop) => (await callers.RunAsync(scope.AgencyId, person, stop))!;
}
