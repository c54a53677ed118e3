using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.Papers;
using TeamCircle.Core.People;
using TeamCircle.Data.Family;
using TeamCircle.Data.Papers;
using TeamCircle.Data.People;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>Papers around Wren's lessons: days that bind, the pack for the review of her plan, a decision on the summer to come, and how her first report reached her mother.</summary>
internal sealed class DemonstrationPapers(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock)
{
    private sealed record Kept(BoundKind Kind, int InDays, string RestsOn, int? Months = null, int? From = null);

    private static readonly Kept[] Days =
    [
        new(BoundKind.AnnualReview, 44, "The review meeting of last winter", Months: 12),
        new(BoundKind.Reevaluation, 402, "The evaluation of two winters ago", Months: 36),
        new(BoundKind.VisionEvaluation, -12, "The cooperative's own rule: every year", Months: 12),
        new(BoundKind.HealthPlan, 71, "The plan signed by her physician", Months: 12),
        new(BoundKind.Trial, 18, "Trial of a palm switch at the table", From: -20),
    ];

    public async Task AddAsync(CancellationToken stop)
    {
        var (marisol, dele, priya, wren, report, ended) = await portal.ReadAsync(scope, async db =>
        {
            var people = await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop);
            var learner = await db.Learners.Where(l => l.AgencyId == scope.AgencyId && l.Code == "TF07").Select(l => l.Id).SingleAsync(stop);
            var first = await db.Periods.Where(p => p.AgencyId == scope.AgencyId).OrderBy(p => p.StartDay).FirstAsync(stop);
            return (people[Marisol], people[Dele], people[Priya], learner, await db.Reports.Where(r => r.AgencyId == scope.AgencyId && r.LearnerId == learner && r.PeriodId == first.Id).Select(r => r.Id).SingleAsync(stop), first.EndDay);
        }, stop);
        var caller = (await callers.RunAsync(scope.AgencyId, marisol, stop))!;
        foreach (var day in Days)
        {
            Must(await new AddBoundDate(portal).RunAsync(caller, Guid.CreateVersion7(), new()
            {
                Learner = wren,
                Kind = day.Kind,
                FromDay = day.From is { } from ? caller.Today.PlusDays(from) : null,
                DueOn = caller.Today.PlusDays(day.InDays),
                RestsOn = day.RestsOn,
                RepeatMonths = day.Months,
            }, stop));
        }
        Must(await new KeepLicence(portal).RunAsync((await callers.RunAsync(scope.AgencyId, dele, stop))!, Guid.CreateVersion7(),
            new() { Person = priya, Name = "State licence, physical therapy", UntilDay = caller.Today.PlusDays(52) }, stop));
        Must(await new AskExtendedYear(portal).RunAsync(caller, Guid.CreateVersion7(), new() { Learner = wren, DecideBy = caller.Today.PlusDays(85) }, stop));
        await PackAsync(caller, wren, stop);
        Must(await new SendPaper(portal).RunAsync(caller, Guid.CreateVersion7(), new()
        {
            Learner = wren,
            Paper = new PaperPlace(PaperKind.Report, report).Value,
            SentOn = LocalDate.Min(ended.PlusDays(11), caller.Today),
            Way = DeliveryWay.Handed,
            Language = "Spanish, with an interpreter",
            ToWhom = "Ines Belmares, her mother",
        }, stop));
    }

    private async Task PackAsync(Caller caller, int wren, CancellationToken stop)
    {
        Must(await new EnterRemark(portal, clock).RunAsync(caller, Guid.CreateVersion7(), new()
        {
            Learner = wren,
            Kind = RemarkKind.ForMeeting,
            Words = "Mornings are her best time now. I would like all visits before noon, and nothing on the day after the clinic.",
            SaidBy = "Ines Belmares, her mother",
            SaidOn = caller.Today.PlusDays(-5),
        }, stop));
        Must(await new MakePack(portal).RunAsync(caller, Guid.CreateVersion7(), new() { Learner = wren, OnDay = caller.Today.PlusDays(40), About = "Annual review of the plan" }, stop));
    }
}
