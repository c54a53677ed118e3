using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Mail;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.Family;

/// <summary>Publishes a draft: from then on the family reads it, and it changes no more. One that corrects another takes its place in the same act.</summary>
public sealed class PublishSummary(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Summary { get; init; }
        public int Version { get; init; }
    }

    public sealed record Saved(int Summary);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(PublishSummary), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await SummaryWork.FindAsync(db, caller, input.Learner, input.Summary, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.State != SummaryState.Draft)
            return Outcome<Saved>.Refused(SummaryWork.NotADraft);
        Problem[] problems = [.. SummaryRules.CheckReady(SummaryContent.Read(row.Content))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (await QuietLearners.HasAsync(db, row.AgencyId, row.LearnerId, stop))
            return Outcome<Saved>.Refused("", QuietLearners.Refusal);
        if (row.CorrectsId is { } corrects)
        {
            var old = await db.FamilySummaries.SingleAsync(s => s.AgencyId == row.AgencyId && s.LearnerId == row.LearnerId && s.Id == corrects, stop);
            (old.Live, old.TakenBackReason) = (false, row.CorrectsWhy);
        }
        db.BeganOn(row, input.Version);
        (row.PublishedBy, row.PublishedAt) = (caller.PersonId, EnterRemark.Now(clock));
        await QueueMail.ForFamilyAsync(db, row.LearnerId, MailKind.NewSummary, stop);
        return Outcome<Saved>.Of(new(row.Id));
    }
}
