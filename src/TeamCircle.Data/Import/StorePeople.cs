using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Import;
using TeamCircle.Core.People;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Import;

/// <summary>Stores people and learners. A file adds roles, disciplines and relations; it takes none away, which is an act of its own.
/// A name that was changed on a paper stays, whatever an older file says.</summary>
internal sealed class StorePeople(ImportDesk desk)
{
    public async Task PeopleAsync(IReadOnlyList<PersonLine> lines, CancellationToken stop)
    {
        int[] ids = [.. lines.Select(l => desk.People.GetValueOrDefault(l.Email)).Where(id => id != 0)];
        var known = await desk.Db.People.Where(p => p.AgencyId == desk.Agency && ids.Contains(p.Id)).ToDictionaryAsync(p => p.Id, stop);
        var renamed = await desk.Db.PersonNames.Where(n => n.AgencyId == desk.Agency && ids.Contains(n.PersonId)).Select(n => n.PersonId).Distinct().ToListAsync(stop);
        var rows = new List<(PersonLine Line, PersonRow Row)>();
        foreach (var line in lines)
        {
            if (!known.TryGetValue(desk.People.GetValueOrDefault(line.Email), out var row))
                row = desk.Add(new PersonRow { Email = line.Email, Name = line.Name });
            (row.Name, row.Credential) = (renamed.Contains(row.Id) ? row.Name : line.Name, line.Credential ?? row.Credential);
            desk.Count(line.File, line.Line, row);
            rows.Add((line, row));
        }
        await desk.SaveAsync(stop);
        foreach (var (line, row) in rows)
            desk.People[line.Email] = row.Id;
        await RolesAsync(rows, ids, stop);
    }

    private async Task RolesAsync(List<(PersonLine Line, PersonRow Row)> rows, int[] ids, CancellationToken stop)
    {
        var roles = (await desk.Db.PersonRoles.Where(r => r.AgencyId == desk.Agency && ids.Contains(r.PersonId) && (r.ToDay == null || r.ToDay >= desk.Today))
            .Select(r => new { r.PersonId, r.Role }).ToListAsync(stop)).ToHashSet();
        var disciplines = (await desk.Db.PersonDisciplines.Where(r => r.AgencyId == desk.Agency && ids.Contains(r.PersonId))
            .Select(r => new { r.PersonId, r.Discipline }).ToListAsync(stop)).ToHashSet();
        foreach (var (line, row) in rows)
        {
            object[] added =
            [
                .. line.Roles.Where(r => !roles.Contains(new { PersonId = row.Id, Role = r }))
                    .Select(r => desk.Add(new PersonRoleRow { PersonId = row.Id, Role = r, FromDay = desk.RolesFrom })),
                .. line.Disciplines.Where(d => !disciplines.Contains(new { PersonId = row.Id, Discipline = d }))
                    .Select(d => desk.Add(new PersonDisciplineRow { PersonId = row.Id, Discipline = d })),
            ];
            desk.Count(line.File, line.Line, [row, .. added]);
        }
        await desk.SaveAsync(stop);
    }

    public async Task LearnersAsync(IReadOnlyList<LearnerLine> lines, CancellationToken stop)
    {
        int[] ids = [.. lines.Select(l => desk.Learners.GetValueOrDefault(l.Code)).Where(id => id != 0)];
        var known = await desk.Db.Learners.Where(l => l.AgencyId == desk.Agency && ids.Contains(l.Id)).ToDictionaryAsync(l => l.Id, stop);
        var renamed = await desk.Db.LearnerNames.Where(n => n.AgencyId == desk.Agency && ids.Contains(n.LearnerId)).Select(n => n.LearnerId).Distinct().ToListAsync(stop);
        var rows = new List<(LearnerLine Line, LearnerRow Row)>();
        foreach (var line in lines)
        {
            if (!known.TryGetValue(desk.Learners.GetValueOrDefault(line.Code), out var row))
                row = desk.Add(new LearnerRow { Code = line.Code, Name = line.Name });
            var name = row.LegalName is not null || renamed.Contains(row.Id) ? row.Name : line.Name;
            (row.Name, row.MostMinutesADay, row.SendingDistrict) = (name, line.MostMinutesADay, line.SendingDistrict ?? row.SendingDistrict);
            desk.Count(line.File, line.Line, row);
            rows.Add((line, row));
        }
        await desk.SaveAsync(stop);
        foreach (var (line, row) in rows)
            desk.Learners[line.Code] = row.Id;
        var plans = (await desk.Db.Plans.Where(p => p.AgencyId == desk.Agency && ids.Contains(p.LearnerId)).ToListAsync(stop)).ToLookup(p => p.LearnerId);
        var relations = (await desk.Db.Relations.Where(r => r.AgencyId == desk.Agency && ids.Contains(r.LearnerId)
            && (r.ToDay == null || r.ToDay >= desk.Today)).ToListAsync(stop)).ToLookup(r => r.LearnerId);
        foreach (var (line, row) in rows)
            desk.Count(line.File, line.Line, [row, Plan(line, row, [.. plans[row.Id]]), .. Relations(line, row, [.. relations[row.Id]])]);
        await desk.SaveAsync(stop);
    }

    /// <summary>The plan with the same first day, or else one that overlaps, gets the file's dates; otherwise it is a new one.</summary>
    private PlanRow Plan(LearnerLine line, LearnerRow learner, List<PlanRow> known)
    {
        var row = known.Find(p => p.StartDay == line.PlanStart)
            ?? known.Find(p => p.StartDay <= line.PlanEnd && p.EndDay >= line.PlanStart)
            ?? desk.Add(new PlanRow { LearnerId = learner.Id });
        (row.StartDay, row.EndDay) = (line.PlanStart, line.PlanEnd);
        return row;
    }

    private List<object> Relations(LearnerLine line, LearnerRow learner, List<RelationRow> known)
    {
        var touched = new List<object>();
        var manager = desk.People[line.CaseManager];
        foreach (var former in known.Where(r => r.Kind == Relation.CaseManager && r.PersonId != manager))
        {
            former.ToDay = LocalDate.Max(former.FromDay, desk.Today.PlusDays(-1));
            touched.Add(former);
        }
        var from = touched.Count > 0 ? desk.Today : line.PlanStart;
        Relate(Relation.CaseManager, manager, from);
        foreach (var email in line.Team)
            Relate(Relation.Team, desk.People[email], line.PlanStart);
        foreach (var email in line.Family)
            Relate(Relation.Family, desk.People[email], line.PlanStart);
        return touched;

        void Relate(Relation kind, int person, LocalDate firstDay)
        {
            if (!known.Exists(r => r.Kind == kind && r.PersonId == person))
                touched.Add(desk.Add(new RelationRow { LearnerId = learner.Id, PersonId = person, Kind = kind, FromDay = firstDay }));
        }
    }
}
