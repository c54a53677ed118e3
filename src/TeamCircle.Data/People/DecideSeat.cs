using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.People;

/// <summary>Says on what somebody keeps a family's seat after the learner has come of age, or that it is the learner's own; without a basis the seat pauses again.</summary>
public sealed class DecideSeat(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Seat { get; init; }
        public int Version { get; init; }

        /// <summary>Null takes the decision back.</summary>
        public AdultBasis? Basis { get; init; }
        public string? Paper { get; init; }
    }

    public sealed record Saved(int Seat);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WritePlanAsync(
        caller, input.Learner, Operation.Of(operation, nameof(DecideSeat), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await db.Relations.SingleOrDefaultAsync(r => r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.Id == input.Seat && r.Kind == Relation.Family, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.Basis is not null && (string.IsNullOrWhiteSpace(input.Paper) || input.Paper.Trim().Length > ComingOfAge.LongestPaper))
            return Outcome<Saved>.Refused(nameof(input.Paper), "Name the paper: the court's order, the adult learner's own consent with its day.");
        db.BeganOn(row, input.Version);
        (row.AdultBasis, row.AdultPaper) = (input.Basis, input.Basis is null ? null : input.Paper!.Trim());
        return Outcome<Saved>.Of(new(row.Id));
    }
}
