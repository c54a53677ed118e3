using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Import;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Import;

/// <summary>Stores what an agency that starts in mid-year brings along: given before, brought forward, awarded.</summary>
/// <remarks>Rows are matched by service and day, so that a second import changes nothing.</remarks>
internal sealed class StoreBalances(ImportDesk desk)
{
    private List<BalanceRow> _given = [];
    private List<DebtRow> _debts = [];
    private List<AwardRow> _awards = [];
    private Dictionary<int, ServiceRow> _services = [];

    public async Task RunAsync(IReadOnlyList<BalanceLine> lines, CancellationToken stop)
    {
        int[] ids = [.. lines.Select(l => desk.Services[l.Service]).Distinct()];
        _services = await desk.Db.Services.Where(s => s.AgencyId == desk.Agency && ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, stop);
        _given = await desk.Db.Balances.Where(b => b.AgencyId == desk.Agency && ids.Contains(b.ServiceId)).ToListAsync(stop);
        _debts = await desk.Db.Debts.Where(d => d.AgencyId == desk.Agency && d.PeriodId == null && ids.Contains(d.ServiceId!.Value)).ToListAsync(stop);
        _awards = await desk.Db.Awards.Where(a => a.AgencyId == desk.Agency && a.FromFile && ids.Contains(a.ServiceId!.Value)).ToListAsync(stop);
        foreach (var line in lines)
        {
            var service = _services[desk.Services[line.Service]];
            object?[] rows = [Given(line, service), Debt(line, service), Award(line, service)];
            desk.Count(line.File, line.Line, [.. rows.OfType<object>()]);
        }
        await desk.SaveAsync(stop);
    }

    private BalanceRow? Given(BalanceLine line, ServiceRow service)
    {
        var row = _given.Find(b => b.ServiceId == service.Id && b.AsOf == line.AsOf);
        if (row is null && line.GivenBefore is null or 0)
            return null;
        row ??= desk.Add(new BalanceRow { ServiceId = service.Id, LearnerId = service.LearnerId, AsOf = line.AsOf });
        row.GivenBefore = line.GivenBefore ?? 0;
        return row;
    }

    /// <summary>Nobody of this agency has decided about it: it waits for the case manager.</summary>
    private DebtRow? Debt(BalanceLine line, ServiceRow service)
    {
        var day = line.AsOf.PlusDays(-1);
        var row = _debts.Find(d => d.ServiceId == service.Id && d.OnDay == day);
        if (row is null && line.BroughtForward is null or 0)
            return null;
        row ??= desk.Add(new DebtRow { ServiceId = service.Id, LearnerId = service.LearnerId, OnDay = day, Since = day });
        (row.Undecided, row.Live) = (line.BroughtForward ?? 0, line.BroughtForward > 0);
        return row;
    }

    private AwardRow? Award(BalanceLine line, ServiceRow service)
    {
        var row = _awards.Find(a => a.ServiceId == service.Id && a.FromDay == line.AsOf);
        if (row is null && line.Award is null or 0)
            return null;
        row ??= desk.Add(new AwardRow
        {
            ServiceId = service.Id,
            LearnerId = service.LearnerId,
            Discipline = service.Discipline,
            FromDay = line.AsOf,
            FromFile = true,
            Paper = "",
        });
        row.Paper = line.Source ?? "The file names none.";
        row.Source = Enum.TryParse<AwardSource>(line.Source, ignoreCase: true, out var source) && Enum.IsDefined(source) ? source : AwardSource.Other;
        row.UntilDay = line.Until;
        row.Live = line.Award > 0;
        row.Amount = line.Award > 0 ? line.Award.Value : row.Amount;
        row.TakenBackReason = row.Live ? null : "The file names no award any more.";
        return row;
    }
}
