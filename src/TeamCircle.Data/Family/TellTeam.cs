using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>A family tells the team something on its page, where the agency has switched that on. It waits for people and changes no record.</summary>
public sealed class TellTeam(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public RemarkKind? Kind { get; init; }

        /// <summary>The visit that it is about; null: none.</summary>
        public Guid? Visit { get; init; }
        public string? Words { get; init; }
    }

    public Task<Outcome<EnterRemark.Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(TellTeam), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<EnterRemark.Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop) =>
        caller.IsFamilyOf(input.Learner) && await db.Agencies.AnyAsync(a => a.Id == caller.AgencyId && a.FamilyTells, stop)
            ? await EnterRemark.AddAsync(
                db, caller, input.Learner, new(input.Kind, input.Visit, input.Words, caller.Name, caller.Today), EnterRemark.Now(clock), byFamily: true, stop)
            : Outcome<EnterRemark.Saved>.Refused(Problem.NotFound);
}
