using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Quiet;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Mail;

namespace TeamCircle.Data.Quiet;

/// <summary>
/// Sets a learner's quiet. When this has answered no mail about them goes out any more, also none that was queued; a mail that is on its
/// way to the server at this moment is waited for.
/// </summary>
public sealed class SetQuiet(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        [StringLength(1000)]
        public string? Reason { get; init; }

        [StringLength(200)]
        public string? NamedBy { get; init; }

        /// <summary>They have read what stops.</summary>
        public bool Confirmed { get; init; }
    }

    /// <param name="Stopped">How many mails that waited were stopped.</param>
    public sealed record Saved(int Quiet, int Stopped);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        QuietRules.MaySet(caller, input.Learner)
            ? await portal.WriteAsync(ScopeFor(caller, input.Learner), Operation.Of(operation, nameof(SetQuiet), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    internal static Scope ScopeFor(Caller caller, int learner) => caller.Manages(learner)
        ? Scope.OfLearner(caller, learner, "case manager of the learner")
        : Scope.WholeAgency(caller, "director, for a learner's quiet");

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!await db.Learners.AnyAsync(l => l.AgencyId == caller.AgencyId && l.Id == input.Learner, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. QuietRules.Check(input.Reason, input.NamedBy, input.Confirmed)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        await QuietLock.SetAsync(db, caller.AgencyId, stop);
        if (await QuietLearners.HasAsync(db, caller.AgencyId, input.Learner, stop))
            return Outcome<Saved>.Refused("", "Somebody has set this learner's quiet meanwhile.");
        var now = Instant.FromDateTimeOffset(clock.GetUtcNow());
        var row = new QuietRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Reason = input.Reason!.Trim(),
            NamedBy = input.NamedBy!.Trim(),
            SetBy = caller.PersonId,
            SetAt = now,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id, await StopMailsAsync(db, caller.AgencyId, input.Learner, now, stop)));
    }

    private static Task<int> StopMailsAsync(PortalDb db, int agency, int learner, Instant now, CancellationToken stop) => db.Outbox
        .Where(o => o.AgencyId == agency && o.LearnerId == learner && (o.State == MailState.Queued || o.State == MailState.Sending))
        .ExecuteUpdateAsync(set => set.SetProperty(o => o.State, MailState.Stopped).SetProperty(o => o.EndedAt, now)
            .SetProperty(o => o.Secret, (string?)null).SetProperty(o => o.Answer, "Stopped: the learner is quiet."), stop);
}
