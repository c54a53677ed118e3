using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Whoever gave a review takes it back, with a reason: what rested on it is not reviewed any more.</summary>
public sealed class TakeBackReview(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }
        public int Review { get; init; }

        [StringLength(500, ErrorMessage = "Keep the reason under 500 letters.")]
        public string? Reason { get; init; }
    }

    public sealed record Saved(int Review);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(TakeBackReview), input), (db, row) => WorkAsync(db, caller, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, RoutineRow routine, Input input, CancellationToken stop)
    {
        var review = await (
            from r in db.RoutineReviews
            join v in db.RoutineVersions on new { r.AgencyId, Id = r.VersionId } equals new { v.AgencyId, v.Id }
            where r.AgencyId == routine.AgencyId && r.Id == input.Review && v.RoutineId == routine.Id && r.PersonId == caller.PersonId
            select r).SingleOrDefaultAsync(stop);
        if (review is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (string.IsNullOrWhiteSpace(input.Reason))
            return Outcome<Saved>.Refused(nameof(input.Reason), "Say why it is taken back.");
        (review.Live, review.TakenBackReason) = (false, input.Reason.Trim());
        return Outcome<Saved>.Of(new(review.Id));
    }
}
