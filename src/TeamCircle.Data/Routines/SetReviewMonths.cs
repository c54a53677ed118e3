using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Sets for how many months the review of a routine's card holds.</summary>
public sealed class SetReviewMonths(Portal portal)
{
    /// <summary>Five years (our number; the database refuses more as well).</summary>
    public const int Most = 60;

    public sealed record Input
    {
        public int? Months { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int Months);

    /// <summary>What stands now, as the form begins on it.</summary>
    public Task<Input> StartAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db =>
        db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => new Input { Months = a.ReviewMonths, Version = a.Version }).SingleAsync(stop), stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "reviews of routines", Operation.Of(operation, nameof(SetReviewMonths), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (input.Months is not (>= 1 and <= Most and var months))
            return Outcome<Saved>.Refused(nameof(input.Months), $"Give a number of months, from 1 to {Most}.");
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        db.BeganOn(row, input.Version);
        row.ReviewMonths = months;
        return Outcome<Saved>.Of(new(months));
    }
}
