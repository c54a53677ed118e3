using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Moves;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Moves;

/// <summary>
/// Files that a visit of somebody who leaves can no longer be logged, their part of a report no longer signed, or an entry of another person no longer confirmed or
/// countersigned: who, when and why stand there ever after. A visit of theirs is called off as not recorded; what it would have given stays undecided until people decide.
/// An entry stays as it is: what did not count without their word does not.
/// </summary>
public sealed class FileItem(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Person { get; init; }

        /// <summary>One of these two.</summary>
        public Guid? Visit { get; init; }
        public int? Report { get; init; }
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WritePlanAsync(caller, input.Learner, Operation.Of(operation, nameof(FileItem), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.LastDays.SingleOrDefaultAsync(d => d.AgencyId == caller.AgencyId && d.PersonId == input.Person, stop) is not { } last || (input.Visit is null) == (input.Report is null))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. LastDayRules.CheckWords(input.Reason)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var items = await new LeftBehind(db, caller.AgencyId, last, caller.Today).ListAsync(stop);
        var left = items.FirstOrDefault(i => i.Learner == input.Learner && HandOverList.CanBeFiled(i.Kind, last.Day, caller.Today)
            && (i.Kind == HandOverKind.Report ? i.Id == input.Report : i.Visit == input.Visit));
        if (left is null)
            return Outcome<Saved>.Refused("", "It stands on the list no longer: somebody has dealt with it meanwhile.");
        if (left.Kind == HandOverKind.VisitNotLogged && await CallOffAsync(db, caller, left.Visit!.Value, stop) is { } problem)
            return Outcome<Saved>.Refused(problem);
        db.Add(new FiledItemRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            PersonId = input.Person,
            VisitId = input.Visit,
            ReportId = input.Report,
            Words = input.Reason!.Trim(),
            FiledBy = caller.PersonId,
            FiledAt = Instant.FromDateTimeOffset(clock.GetUtcNow()),
        });
        return Outcome<Saved>.Of(new(input.Learner));
    }

    private static async Task<Problem?> CallOffAsync(PortalDb db, Caller caller, Guid id, CancellationToken stop)
    {
        var visit = (await LoggedVisit.LockAsync(db, caller.AgencyId, [id], stop)).Single();
        if (visit.State != VisitState.Planned)
            return Refusals.LoggedMeanwhile;
        visit.CallOff(Reason.NotRecorded);
        return null;
    }
}
