using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Monitoring;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Monitoring;

/// <param name="Answered">Files in which at least one question was answered.</param>
public sealed record SampleListed(int Id, string Period, Discipline? Discipline, long Seed, int Population, int Files, int Answered, string DrawnBy, LocalDate DrawnOn);

/// <param name="Files">In the order in which they were drawn.</param>
public sealed record SampleShown(SampleListed Sample, IReadOnlyList<SampledFile> Files);

/// <param name="Answers">How many of the questions were answered.</param>
public sealed record SampledFile(int Id, int LearnerId, string Learner, string Code, int Position, int Answers);

public sealed record FileAnswered(FileAnswer Answer, string? Word, string By);

/// <summary>One file of a sample with the list of questions: what the facts say, and what was answered.</summary>
/// <param name="AsOf">Up to which day of the period the facts are asked for.</param>
public sealed record SampleFileShown(
    SampleListed Sample, int File, int LearnerId, string Learner, string Code, DateInterval Period, LocalDate AsOf, IReadOnlyList<FileCheck> Checks,
    IReadOnlyDictionary<FileQuestion, FileAnswered> Answered);

/// <summary>Reads samples of files and the facts about one file of them.</summary>
public sealed class ReadSamples(Portal portal, ReadStandingLines lines)
{
    /// <summary>All of the agency, the latest first.</summary>
    public Task<IReadOnlyList<SampleListed>> RunAsync(Scope scope, CancellationToken stop = default) =>
        portal.ReadAsync(scope, db => ListAsync(db, scope.AgencyId, null, stop), stop);

    /// <summary>Null where there is no such sample.</summary>
    public Task<SampleShown?> OfAsync(Scope scope, int sample, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
        await ListAsync(db, scope.AgencyId, sample, stop) is [var found]
            ? new SampleShown(found, await (
                from f in db.SampleFiles
                join l in db.Learners on new { f.AgencyId, Id = f.LearnerId } equals new { l.AgencyId, l.Id }
                where f.AgencyId == scope.AgencyId && f.SampleId == sample
                orderby f.Position
                select new SampledFile(f.Id, l.Id, l.Name, l.Code, f.Position, db.SampleAnswers.Count(a => a.AgencyId == f.AgencyId && a.FileId == f.Id))).ToListAsync(stop))
            : null, stop);

    /// <summary>Null where the learner has no such file.</summary>
    public async Task<SampleFileShown?> FileAsync(Scope scope, int learner, int file, LocalDate today, CancellationToken stop = default)
    {
        var head = await portal.ReadAsync(scope, db => HeadAsync(db, scope.AgencyId, learner, file, stop), stop);
        if (head is not var (sample, name, code, period))
            return null;
        var asOf = LocalDate.Min(today, period.End);
        var standings = await lines.RunAsync(scope, asOf, learner, stop);
        var facts = await portal.ReadAsync(scope, db => new FileFactsQuery(db, scope.AgencyId, learner, new(period.Start, LocalDate.Max(period.Start, asOf))).RunAsync(standings, stop), stop);
        var answered = await portal.ReadAsync(scope, db => (
            from a in db.SampleAnswers
            join p in db.People on new { a.AgencyId, Id = a.AnsweredBy } equals new { p.AgencyId, p.Id }
            where a.AgencyId == scope.AgencyId && a.FileId == file
            select new { a.Question, Said = new FileAnswered(a.Answer, a.Word, p.Name) }).ToDictionaryAsync(a => a.Question, a => a.Said, stop), stop);
        return new(sample, file, learner, name, code, period, asOf, FileChecks.Of(facts), answered);
    }

    private static async Task<(SampleListed Sample, string Learner, string Code, DateInterval Period)?> HeadAsync(PortalDb db, int agency, int learner, int file, CancellationToken stop)
    {
        var head = await (
            from f in db.SampleFiles
            join s in db.Samples on new { f.AgencyId, Id = f.SampleId } equals new { s.AgencyId, s.Id }
            join p in db.Periods.IgnoreQueryFilters() on new { s.AgencyId, Id = s.PeriodId } equals new { p.AgencyId, p.Id }
            join l in db.Learners on new { f.AgencyId, Id = f.LearnerId } equals new { l.AgencyId, l.Id }
            where f.AgencyId == agency && f.LearnerId == learner && f.Id == file
            select new { f.SampleId, l.Name, l.Code, p.StartDay, p.EndDay }).SingleOrDefaultAsync(stop);
        return head is not null && await ListAsync(db, agency, head.SampleId, stop) is [var sample]
            ? (sample, head.Name, head.Code, new DateInterval(head.StartDay, head.EndDay)) : null;
    }

    private static async Task<IReadOnlyList<SampleListed>> ListAsync(PortalDb db, int agency, int? sample, CancellationToken stop)
    {
        var rows = await (
            from s in db.Samples
            join a in db.Agencies on s.AgencyId equals a.Id
            join p in db.Periods.IgnoreQueryFilters() on new { s.AgencyId, Id = s.PeriodId } equals new { p.AgencyId, p.Id }
            join who in db.People on new { s.AgencyId, Id = s.DrawnBy } equals new { who.AgencyId, who.Id }
            where s.AgencyId == agency && (sample == null || s.Id == sample)
            orderby s.Id descending
            select new
            {
                Row = s,
                Period = p.Name,
                By = who.Name,
                a.TimeZone,
                Files = db.SampleFiles.Count(f => f.AgencyId == s.AgencyId && f.SampleId == s.Id),
                Answered = db.SampleFiles.Count(f => f.AgencyId == s.AgencyId && f.SampleId == s.Id && db.SampleAnswers.Any(x => x.AgencyId == f.AgencyId && x.FileId == f.Id)),
            }).ToListAsync(stop);
        return [.. rows.Select(r => new SampleListed(
            r.Row.Id, r.Period, r.Row.Discipline, r.Row.Seed, r.Row.Population, r.Files, r.Answered, r.By, r.Row.DrawnAt.InZone(DateTimeZoneProviders.Tzdb[r.TimeZone]).Date))];
    }
}

/// <summary>What is on record in one file between two days.</summary>
internal sealed class FileFactsQuery(PortalDb db, int agency, int learner, DateInterval days)
{
    public async Task<FileFacts> RunAsync(Standings standings, CancellationToken stop)
    {
        var plans = await db.Plans.Where(p => p.AgencyId == agency && p.LearnerId == learner && p.StartDay <= days.End && p.EndDay >= days.Start).ToListAsync(stop);
        var decisions = await db.Decisions.Where(d => d.AgencyId == agency && d.LearnerId == learner && d.Live && d.OnDay >= days.Start && d.OnDay <= days.End)
            .Select(d => new FileDecision(d.Kind == DecisionKind.NotOwed, d.Note != null && d.Note != "", d.DecidedBy.Length > 0, d.FamilyToldOn != null)).ToListAsync(stop);
        var report = await db.Reports.Where(r => r.AgencyId == agency && r.LearnerId == learner && standings.Period != null && r.PeriodId == standings.Period.Id)
            .Select(r => (int?)db.ReportSignatures.Count(s => s.AgencyId == agency && s.ReportId == r.Id)).FirstOrDefaultAsync(stop);
        var entries = await (
            from s in db.Sessions
            join v in db.Visits on new { s.AgencyId, Id = s.VisitId } equals new { v.AgencyId, v.Id }
            where s.AgencyId == agency && s.LearnerId == learner && s.OnDay >= days.Start && s.OnDay <= days.End && s.Replaces == null && s.Origin != SessionOrigin.File
            select new { s.RecordedAt, s.OnDay, s.EndTime, v.Zone }).ToListAsync(stop);
        return new(
            days.Count(day => !plans.Exists(p => p.StartDay <= day && day <= p.EndDay)), [.. standings.Lines.Select(Line)], decisions, report,
            [.. entries.Select(e => EntryDelay.Of(WallTime.Resolve(e.OnDay + e.EndTime, DateTimeZoneProviders.Tzdb[e.Zone]).ToInstant(), e.RecordedAt))]);
    }

    private FileLine Line(StandingLine standing)
    {
        var line = standing.Line;
        var without = days.Count(day => line.Promise.Dates.Holds(Day.Of(day)) && !line.IsAssigned(Day.Of(day)));
        return new(line.Code, line.IsProbes, StatusWords.Of(standing.Balance.Status), standing.Balance.Minutes.LackSoFar, without);
    }
}
