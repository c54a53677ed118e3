using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Papers;

/// <summary>Says that a paper went out to the parents: when, how, in which language, to whom. Sends nothing itself.</summary>
public sealed class SendPaper(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>Which paper, as <see cref="PaperPlace.Value"/> gives it.</summary>
        public string? Paper { get; init; }
        public string? About { get; init; }
        public LocalDate? SentOn { get; init; }
        public DeliveryWay? Way { get; init; }
        public string? Language { get; init; }
        public string? ToWhom { get; init; }
    }

    public sealed record Saved(int Delivery);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(SendPaper), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!Deliveries.MayKeep(caller, input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var place = PaperPlace.Read(input.Paper);
        List<Problem> problems = [.. Deliveries.Check(place?.Kind, input.About, input.SentOn, input.Way, input.Language, input.ToWhom, caller.Today)];
        var paper = place is null ? null : await FindAsync(db, caller.AgencyId, input.Learner, place, stop);
        if (place is not null && paper is null)
            problems.Add(new(nameof(input.Paper), "Choose one of the papers in the list."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new DeliveryRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Paper = place!.Kind,
            ReportId = place.Kind == PaperKind.Report ? place.Id : null,
            StatementId = place.Kind == PaperKind.Statement ? place.Id : null,
            MeetingId = place.Kind == PaperKind.MeetingPack ? place.Id : null,
            About = PaperPlace.IsKnown(place.Kind) ? null : input.About!.Trim(),
            DueOn = paper!.Due,
            SentOn = input.SentOn!.Value,
            Way = input.Way!.Value,
            Language = input.Language!.Trim(),
            ToWhom = input.ToWhom!.Trim(),
            SentBy = caller.PersonId,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private sealed record Found(LocalDate? Due);

    /// <summary>Null where the learner has no such paper. A report that is not finished cannot have gone out.</summary>
    private static async Task<Found?> FindAsync(PortalDb db, int agency, int learner, PaperPlace place, CancellationToken stop) => place.Kind switch
    {
        PaperKind.Report => await (
            from r in db.Reports.IgnoreQueryFilters()
            join p in db.Periods.IgnoreQueryFilters() on new { r.AgencyId, Id = r.PeriodId } equals new { p.AgencyId, p.Id }
            where r.AgencyId == agency && r.LearnerId == learner && r.Id == place.Id && r.FinishedAt != null
            select new { p.EndDay }).SingleOrDefaultAsync(stop) is { } report ? new(BoundDates.ReportDue(report.EndDay)) : null,
        PaperKind.Statement => await db.Statements.AnyAsync(s => s.AgencyId == agency && s.LearnerId == learner && s.Id == place.Id, stop) ? new((LocalDate?)null) : null,
        PaperKind.MeetingPack => await db.Meetings.Where(m => m.AgencyId == agency && m.LearnerId == learner && m.Id == place.Id)
            .Select(m => new { m.FamilyBy }).SingleOrDefaultAsync(stop) is { } meeting ? new(meeting.FamilyBy) : null,
        _ => new((LocalDate?)null),
    };
}
