using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Devices;
using TeamCircle.Data.History;

namespace TeamCircle.Data.Rights;

/// <summary>
/// Leaves in the record of access that a copy of the whole record was made for whoever asked to see it (34 CFR 300.613, 99.10), before it is
/// read. It does not answer the request: handing it over does.
/// </summary>
public sealed class CopyRecord(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>The request to see the record that it is for.</summary>
        public int Request { get; init; }
    }

    public sealed record Saved(int Learner, string For);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(CopyRecord), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadRequests.FindAsync(db, caller, input.Learner, input.Request, stop) is not { Kind: RequestKind.See } request)
            return Outcome<Saved>.Refused(Problem.NotFound);
        db.Add(new AccessRow
        {
            AgencyId = caller.AgencyId,
            PersonId = caller.PersonId,
            Address = caller.Address,
            Ground = $"copy for {request.AskedBy}, request of {NodaTime.Text.LocalDatePattern.Iso.Format(request.ReceivedOn)} (34 CFR 300.613)",
            Page = "GET /Rights/Request Copy",
            LearnerIds = [input.Learner],
        });
        return Outcome<Saved>.Of(new(input.Learner, request.AskedBy));
    }
}
