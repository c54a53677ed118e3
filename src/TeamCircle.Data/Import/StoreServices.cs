using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.Import;

/// <summary>Stores services with their versions, who may give them, and what was brought along for them.</summary>
internal sealed class StoreServices(ImportDesk desk)
{
    public async Task ServicesAsync(IReadOnlyList<ServiceLine> lines, CancellationToken stop)
    {
        int[] learners = [.. lines.Select(l => desk.Learners[l.Learner]).Distinct()];
        var plans = (await desk.Db.Plans.Where(p => p.AgencyId == desk.Agency && learners.Contains(p.LearnerId)).OrderBy(p => p.StartDay)
            .AsNoTracking().ToListAsync(stop)).ToLookup(p => p.LearnerId);
        var services = await desk.Db.Services.Where(s => s.AgencyId == desk.Agency && learners.Contains(s.LearnerId)).ToDictionaryAsync(s => s.Id, stop);
        var versions = (await desk.Db.ServiceVersions.Where(v => v.AgencyId == desk.Agency && learners.Contains(v.LearnerId)).ToListAsync(stop))
            .ToDictionary(v => v.Code, StringComparer.OrdinalIgnoreCase);
        var position = await desk.Db.Services.Where(s => s.AgencyId == desk.Agency).MaxAsync(s => (int?)s.Position, stop) ?? 0;

        var heads = new Dictionary<string, ServiceRow>(StringComparer.OrdinalIgnoreCase);
        foreach (var line in lines.Where(l => l.Code == l.LineCode))
        {
            if (!services.TryGetValue(desk.Services.GetValueOrDefault(line.LineCode), out var row))
                row = desk.Add(new ServiceRow { Code = line.LineCode, Position = ++position });
            Describe(row, line, PlanOf([.. plans[desk.Learners[line.Learner]]], line));
            desk.Count(line.File, line.Line, row);
            heads[line.LineCode] = row;
        }
        // The last version of each line that came says how long the line runs.
        foreach (var last in lines.GroupBy(l => l.LineCode, StringComparer.OrdinalIgnoreCase).Select(g => g.MaxBy(l => l.From)!))
        {
            var row = heads.GetValueOrDefault(last.LineCode) ?? services[desk.Services[last.LineCode]];
            if (!versions.Values.Any(v => v.ServiceId == row.Id && row.Id != 0 && v.FromDay > last.From && !Came(v.Code)))
                row.ToDay = last.To;
            heads[last.LineCode] = row;
        }
        await desk.SaveAsync(stop);
        foreach (var (code, row) in heads)
            desk.Services[code] = row.Id;
        foreach (var line in lines)
            desk.Count(line.File, line.Line, heads[line.LineCode], Version(line, heads[line.LineCode], versions));
        await desk.SaveAsync(stop);
        await ProvidersAsync(lines, stop);

        bool Came(string code) => lines.Any(l => string.Equals(l.Code, code, StringComparison.OrdinalIgnoreCase));
    }

    private void Describe(ServiceRow row, ServiceLine line, int plan)
    {
        (row.LearnerId, row.PlanId) = (desk.Learners[line.Learner], plan);
        (row.Discipline, row.Kind, row.Place, row.Format) = (line.Discipline, line.Kind, line.Place, line.Format);
        (row.Terms, row.CoTreatment, row.ShortWindow) = (line.Terms, line.CoTreatment, line.ShortWindow);
        (row.EveryUnit, row.EveryCount, row.Wording) = (line.Every.Unit, line.Every.Count, line.Wording);
        row.FromDay = line.From;
        if (row.Id == 0)
            row.ToDay = line.To;
    }

    /// <summary>The plan that holds the first day, else one that touches the dates, else the last.</summary>
    private static int PlanOf(List<PlanRow> plans, ServiceLine line) =>
        (plans.Find(p => p.StartDay <= line.From && p.EndDay >= line.From)
         ?? plans.Find(p => p.StartDay <= line.To && p.EndDay >= line.From)
         ?? plans[^1]).Id;

    private ServiceVersionRow Version(ServiceLine line, ServiceRow service, Dictionary<string, ServiceVersionRow> versions)
    {
        if (!versions.TryGetValue(line.Code, out var row))
            row = desk.Add(new ServiceVersionRow { Code = line.Code, ServiceId = service.Id, LearnerId = service.LearnerId });
        (row.FromDay, row.Quantity, row.QuantityTo, row.Sessions) = (line.From, line.Quantity, line.QuantityTo, line.Sessions);
        (row.PlanWords, row.PlanPage) = (line.PlanWords ?? row.PlanWords, line.PlanPage ?? row.PlanPage);
        return row;
    }

    /// <summary>The named provider for the dates of the version.</summary>
    private async Task ProvidersAsync(IReadOnlyList<ServiceLine> lines, CancellationToken stop)
    {
        var known = await AssignmentsAsync(lines.Select(l => desk.Services[l.LineCode]), stop);
        foreach (var line in lines.Where(l => l.Provider is not null))
        {
            var (service, person) = (desk.Services[line.LineCode], desk.People[line.Provider!]);
            var rows = known[service];
            var row = rows.Find(a => a.PersonId == person && a.FromDay == line.From)
                ?? rows.Find(a => a.FromDay == line.From && a.ToDay == line.To) // another person for the very same dates
                ?? AddAssignment(rows, service, desk.Learners[line.Learner]);
            (row.PersonId, row.FromDay, row.ToDay) = (person, line.From, line.To);
            desk.Count(line.File, line.Line, row);
        }
        await desk.SaveAsync(stop);
    }

    public async Task AssignmentsAsync(IReadOnlyList<AssignmentLine> lines, CancellationToken stop)
    {
        var known = await AssignmentsAsync(lines.Select(l => desk.Services[l.Service]), stop);
        var learners = await LearnersOfAsync(lines.Select(l => desk.Services[l.Service]), stop);
        foreach (var line in lines)
        {
            var (service, person) = (desk.Services[line.Service], desk.People[line.Person]);
            var rows = known[service];
            var row = rows.Find(a => a.PersonId == person && a.FromDay == line.From) ?? AddAssignment(rows, service, learners[service]);
            (row.PersonId, row.FromDay, row.ToDay) = (person, line.From, line.To);
            desk.Count(line.File, line.Line, row);
        }
        await desk.SaveAsync(stop);
    }

    private AssignmentRow AddAssignment(List<AssignmentRow> rows, int service, int learner)
    {
        var row = desk.Add(new AssignmentRow { ServiceId = service, LearnerId = learner });
        rows.Add(row);
        return row;
    }

    private async Task<Dictionary<int, List<AssignmentRow>>> AssignmentsAsync(IEnumerable<int> services, CancellationToken stop)
    {
        int[] ids = [.. services.Distinct()];
        var rows = (await desk.Db.Assignments.Where(a => a.AgencyId == desk.Agency && ids.Contains(a.ServiceId)).ToListAsync(stop)).ToLookup(a => a.ServiceId);
        return ids.ToDictionary(id => id, id => rows[id].ToList());
    }

    private async Task<Dictionary<int, int>> LearnersOfAsync(IEnumerable<int> services, CancellationToken stop)
    {
        int[] ids = [.. services.Distinct()];
        return await desk.Db.Services.Where(s => s.AgencyId == desk.Agency && ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.LearnerId, stop);
    }
}
