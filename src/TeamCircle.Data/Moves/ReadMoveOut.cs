using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Moves;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Data.Moves;

/// <summary>How a learner goes, and the files that were made for it.</summary>
/// <param name="Out">Null where no last day is set.</param>
/// <param name="Files">The newest first.</param>
/// <param name="NotLogged">Visits of a service before today that nobody has logged or called off.</param>
public sealed record MoveOutPage(int LearnerId, string Learner, MoveOutShown? Out, IReadOnlyList<TransferFileShown> Files, int NotLogged);

public sealed record MoveOutShown(
    LocalDate LastDay, string ToWhere, TransferGround Ground, string GroundWords, LocalDate ReadUntil, string? Works, string? WorksNot, string SetBy, int Version);

/// <param name="SentOn">Null until it is noted, with the three that follow.</param>
public sealed record TransferFileShown(int Id, LocalDateTime MadeAt, string MadeBy, LocalDate? SentOn, string? SentTo, string? SentHow, string? SentBy, int Version);

/// <summary>A file as it was made.</summary>
public sealed record TransferFile(int LearnerId, string Agency, LocalDateTime MadeAt, string MadeBy, TransferContent Content);

/// <summary>Reads how a learner goes.</summary>
public sealed class ReadMoveOut(Portal portal)
{
    /// <summary>Null where the scope reaches no such learner.</summary>
    public Task<MoveOutPage?> RunAsync(Scope scope, int learner, LocalDate today, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var agency = scope.AgencyId;
        if (await db.Learners.Where(l => l.AgencyId == agency && l.Id == learner).Select(l => l.Name).SingleOrDefaultAsync(stop) is not { } name)
            return null;
        var people = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        var zone = DateTimeZoneProviders.Tzdb[await db.Agencies.Where(a => a.Id == agency).Select(a => a.TimeZone).SingleAsync(stop)];
        var row = await db.MovesOut.SingleOrDefaultAsync(m => m.AgencyId == agency && m.LearnerId == learner, stop);
        var files = await db.TransferFiles.Where(f => f.AgencyId == agency && f.LearnerId == learner).OrderByDescending(f => f.Id)
            .Select(f => new { f.Id, f.MadeAt, f.MadeBy, f.SentOn, f.SentTo, f.SentHow, f.SentBy, f.Version }).ToListAsync(stop);
        return new MoveOutPage(
            learner, name,
            row is null ? null : new(row.LastDay, row.ToWhere, row.Ground, row.GroundWords, row.ReadUntil, row.Works, row.WorksNot, people.GetValueOrDefault(row.SetBy, "somebody"), row.Version),
            [.. files.Select(f => new TransferFileShown(
                f.Id, f.MadeAt.InZone(zone).LocalDateTime, people.GetValueOrDefault(f.MadeBy, "somebody"), f.SentOn, f.SentTo, f.SentHow,
                f.SentBy is { } by ? people.GetValueOrDefault(by) : null, f.Version))],
            await db.Visits.CountAsync(v => v.AgencyId == agency && v.LearnerId == learner && v.Live && v.Kind == VisitKind.Service && v.State == VisitState.Planned && v.OnDay < today, stop));
    }, stop);

    /// <summary>Null where there is no such file of that learner.</summary>
    public Task<TransferFile?> FileAsync(Scope scope, int learner, int file, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var found = await (
            from f in db.TransferFiles
            join p in db.People on new { f.AgencyId, Id = f.MadeBy } equals new { p.AgencyId, p.Id }
            join a in db.Agencies on f.AgencyId equals a.Id
            where f.AgencyId == scope.AgencyId && f.LearnerId == learner && f.Id == file
            select new { f.Content, f.MadeAt, p.Name, Agency = a.Name, a.TimeZone }).SingleOrDefaultAsync(stop);
        return found is null ? null : new TransferFile(
            learner, found.Agency, found.MadeAt.InZone(DateTimeZoneProviders.Tzdb[found.TimeZone]).LocalDateTime, found.Name, TransferContent.Read(found.Content));
    }, stop);
}
