using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>What the agency sets about practising: how long a review of a card holds, and after how long a device must have asked about holds.</summary>
public sealed class SetPracticeRules(Portal portal)
{
    public const int MostMonths = 60;

    public sealed record Input
    {
        /// <summary>Months for which a review holds.</summary>
        public int? ReviewMonths { get; init; }

        /// <summary>Hours without contact after which a device says that it may not have heard of a hold.</summary>
        public int? HoldContactHours { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int ReviewMonths, int HoldContactHours);

    public static bool MaySet(Caller caller) => caller.Is(Role.Administrator) || caller.Is(Role.Director);

    /// <summary>What holds now.</summary>
    public Task<Input> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db => db.Agencies.Where(a => a.Id == scope.AgencyId)
        .Select(a => new Input { ReviewMonths = a.ReviewMonths, HoldContactHours = a.HoldContactHours, Version = a.Version }).SingleAsync(stop), stop);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => MaySet(caller)
        ? await portal.WriteAsync(Scope.WholeAgency(caller, "rules of practice"), Operation.Of(operation, nameof(SetPracticeRules), input), db => WorkAsync(db, caller.AgencyId, input, stop), stop)
        : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        Problem[] problems = [.. Problems(input)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        db.BeganOn(row, input.Version);
        (row.ReviewMonths, row.HoldContactHours) = (input.ReviewMonths!.Value, input.HoldContactHours!.Value);
        return Outcome<Saved>.Of(new(row.ReviewMonths, row.HoldContactHours));
    }

    private static IEnumerable<Problem> Problems(Input input)
    {
        if (input.ReviewMonths is not (>= 1 and <= MostMonths))
            yield return new(nameof(input.ReviewMonths), $"Give a number of months, from 1 to {MostMonths}.");
        if (input.HoldContactHours is not (>= 1 and <= HoldRules.MostContactHours))
            yield return new(nameof(input.HoldContactHours), $"Give a number of hours, from 1 to {HoldRules.MostContactHours}.");
    }
}
