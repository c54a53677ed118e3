using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Routines;

/// <summary>Reads a routine's card, in one of its versions, and its pictures.</summary>
public sealed class ReadRoutine(Portal portal)
{
    /// <param name="number">Which version; null: the newest.</param>
    /// <returns>Null where the scope reaches no such routine, or it has no such version.</returns>
    public Task<RoutinePage?> RunAsync(Caller caller, Scope scope, int routine, int? number = null, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => new Query(db, caller, routine).RunAsync(number, stop), stop);

    /// <summary>A picture's JPEG; null where there is none.</summary>
    public Task<byte[]?> PictureAsync(Scope scope, int routine, int picture, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => db.RoutinePictures.Where(p => p.AgencyId == scope.AgencyId && p.RoutineId == routine && p.Id == picture)
            .Select(p => p.Jpeg).SingleOrDefaultAsync(stop), stop);

    /// <summary>What its trials so far say about the wait; nothing where there are none yet.</summary>
    public Task<WaitProposal> ProposeWaitAsync(Scope scope, int routine, CancellationToken stop = default) =>
        portal.ReadAsync(scope, async db => new WaitProposal(await (
            from t in db.Trials
            join p in db.Practices on new { t.AgencyId, Id = t.PracticeId } equals new { p.AgencyId, p.Id }
            where p.AgencyId == scope.AgencyId && p.RoutineId == routine && t.Live
            select t.Waited).MaxAsync(stop)), stop);

    private sealed class Query(PortalDb db, Caller caller, int routine)
    {
        private readonly int _agency = caller.AgencyId;

        public async Task<RoutinePage?> RunAsync(int? number, CancellationToken stop)
        {
            var found = await (
                from r in db.Routines
                join l in db.Learners on new { r.AgencyId, Id = r.LearnerId } equals new { l.AgencyId, l.Id }
                join a in db.Agencies on r.AgencyId equals a.Id
                where r.AgencyId == _agency && r.Id == routine
                select new { Row = r, Learner = l.Name, a.TimeZone, a.ReviewMonths }).SingleOrDefaultAsync(stop);
            var versions = found is null ? [] : await VersionsAsync(DateTimeZoneProviders.Tzdb[found.TimeZone], stop);
            var shown = number is null ? versions.FirstOrDefault() : versions.FirstOrDefault(v => v.Number == number);
            if (found is null || (number is not null && shown is null))
                return null;
            var row = found.Row;
            var mayWrite = ReadRoutines.MayWrite(caller, row.LearnerId);
            var holds = (await HoldFacts.ReadAsync(db, _agency, [row.LearnerId], ended: true, stop))[row.LearnerId].ToList();
            return new(row.Id, row.LearnerId, found.Learner, row.Name, row.Version, await EndAsync(row, stop), await CardAsync(row, shown, found.ReviewMonths, stop), versions,
                await GoalsAsync(row.LearnerId, stop), await PicturesAsync(stop), mayWrite, mayWrite ? await ReviewRoutine.LicensedAsync(db, caller, stop) : [])
            {
                Holds = [.. holds.Where(h => h.Stops.ContainsKey(row.Id))],
                EndedHolds = [.. holds.Where(h => h.Ended is not null && h.Place.Routine == row.Id)],
                CautionsSeen = CautionMarks.Of(shown?.Content ?? new()) is not { } mark || (await SeeCautions.SeenAsync(db, _agency, caller.PersonId, [row.Id], stop))[row.Id].Contains(mark),
                Out = [.. (await ReadThings.OutAsync(db, _agency, [row.LearnerId], caller.Today, stop))[row.Id]],
                MaySetHold = HoldRules.MaySet(caller, row.LearnerId),
            };
        }

        private async Task<List<VersionShown>> VersionsAsync(DateTimeZone zone, CancellationToken stop)
        {
            var rows = await (
                from v in db.RoutineVersions
                join p in db.People on new { v.AgencyId, Id = v.WrittenBy } equals new { p.AgencyId, p.Id }
                where v.AgencyId == _agency && v.RoutineId == routine
                orderby v.Number descending
                select new { v.Id, v.Number, p.Name, v.WrittenAt, v.Content }).ToListAsync(stop);
            return [.. rows.Select(v => new VersionShown(v.Id, v.Number, v.Name, v.WrittenAt.InZone(zone).Date, RoutineContent.Read(v.Content)))];
        }

        private async Task<CardShown> CardAsync(RoutineRow row, VersionShown? version, int months, CancellationToken stop)
        {
            var content = version?.Content ?? new RoutineContent { Cue = row.ObjectCue, Place = row.Place };
            var reviews = await CardFacts.ReviewsAsync(db, _agency, [routine], stop);
            var standing = ReviewRules.Standing(content, version?.Number ?? 0, reviews.Select(r => r.Given), months, caller.Today);
            var by = reviews.FirstOrDefault(r => r.Given.Id == standing.Review?.Id);
            return new(version?.Id ?? 0, version?.Number ?? 0, content, new(standing, by?.By, by?.As, by?.Note, by?.PersonId == caller.PersonId));
        }

        private async Task<RoutineEnd?> EndAsync(RoutineRow row, CancellationToken stop) =>
            row is { EndedOn: { } on, EndedBy: { } by }
                ? new(on, await db.People.Where(p => p.AgencyId == _agency && p.Id == by).Select(p => p.Name).SingleAsync(stop), row.EndedReason ?? "")
                : null;

        private async Task<Dictionary<int, GoalNamed>> GoalsAsync(int learner, CancellationToken stop) => (await db.Goals.IgnoreQueryFilters()
                .Where(g => g.AgencyId == _agency && g.LearnerId == learner).OrderBy(g => g.Position).ThenBy(g => g.Id)
                .Select(g => new GoalNamed(g.Id, g.Code, g.Area, g.Statement, g.Live && g.ToDay >= caller.Today)).ToListAsync(stop))
            .ToDictionary(g => g.Id);

        private Task<List<PictureShown>> PicturesAsync(CancellationToken stop) => db.RoutinePictures
            .Where(p => p.AgencyId == _agency && p.RoutineId == routine).OrderBy(p => p.Id)
            .Select(p => new PictureShown(p.Id, p.Kind, p.Width, p.Height, p.Words)).ToListAsync(stop);
    }
}
