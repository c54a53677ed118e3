using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Sets after how many school days a time away without an end asks the case manager to meet.</summary>
public sealed class SetAwayMeetingDays(Portal portal)
{
    /// <summary>More than a school year has is a slip (our number; the database refuses it as well).</summary>
    public const int Most = 200;

    public sealed record Input
    {
        /// <summary>School days, the first day away among them.</summary>
        public int? Days { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int Days);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "time away", Operation.Of(operation, nameof(SetAwayMeetingDays), input),
            db => WorkAsync(db, caller.AgencyId, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, int agency, Input input, CancellationToken stop)
    {
        if (input.Days is not (>= 1 and <= Most and var days))
            return Outcome<Saved>.Refused(nameof(input.Days), "Give a number of school days, from 1 to 200.");
        var row = await db.Agencies.SingleAsync(a => a.Id == agency, stop);
        db.BeganOn(row, input.Version);
        row.AwayMeetingDays = days;
        return Outcome<Saved>.Of(new(days));
    }
}
