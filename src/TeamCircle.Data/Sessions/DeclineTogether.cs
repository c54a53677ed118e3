using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>
/// The named partner of a co-treatment says that it was not given together. What was logged stays as it is: whoever logged it
/// reads the reason and corrects it.
/// </summary>
public sealed class DeclineTogether(Portal portal)
{
    public sealed record Input
    {
        public Guid Session { get; init; }

        [Required(ErrorMessage = "Say what was different.")]
        [StringLength(1000)]
        public string Why { get; init; } = "";
    }

    public sealed record Declined(Guid Visit);

    public Task<Outcome<Declined>> RunAsync(Caller caller, Guid operationId, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.Of(caller), Operation.Of(operationId, nameof(DeclineTogether), input), db => DeclineAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Declined>> DeclineAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var session = await db.Sessions.AsNoTracking().SingleOrDefaultAsync(
            s => s.AgencyId == caller.AgencyId && s.Id == input.Session && s.PartnerId == caller.PersonId, stop);
        if (session is null || !caller.IsStaff || !caller.OnTeam(session.LearnerId))
            return Outcome<Declined>.Refused(Problem.NotFound);
        // The visit's lock makes a confirmation, a correction and this wait for each other.
        var visit = (await LoggedVisit.LockAsync(db, caller.AgencyId, [session.VisitId], stop)).Single();
        var standing = await db.Sessions.SingleAsync(s => s.AgencyId == caller.AgencyId && s.Id == input.Session, stop);
        if (!standing.Live)
            return Outcome<Declined>.Refused(Refusals.ChangedMeanwhile);
        if (await ConfirmTogether.IsConfirmedAsync(db, caller, visit, stop))
            return Outcome<Declined>.Refused("", "You have already confirmed this co-treatment. Take your own session back instead.");
        if (string.IsNullOrWhiteSpace(input.Why))
            return Outcome<Declined>.Refused(nameof(input.Why), "Say what was different.");
        standing.DeclinedReason = input.Why.Trim();
        return Outcome<Declined>.Of(new(visit.Id));
    }
}
