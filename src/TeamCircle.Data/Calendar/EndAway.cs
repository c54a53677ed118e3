using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Ends a time away, moves its end, or takes it back altogether. Visits that it held and holds no longer come back.</summary>
public sealed class EndAway(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Away { get; init; }
        public int Version { get; init; }

        /// <summary>The last day away; null while nobody knows.</summary>
        public LocalDate? UntilDay { get; init; }

        /// <summary>The learner was not away at all.</summary>
        public bool TakeBack { get; init; }
    }

    public sealed record Saved(LocalDate? UntilDay, AwayEffect Effect);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        CalendarRules.MayEnterAway(caller, input.Learner)
            ? await portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(EndAway), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var away = await db.Aways.SingleOrDefaultAsync(
            a => a.AgencyId == caller.AgencyId && a.LearnerId == input.Learner && a.Id == input.Away && a.Live, stop);
        if (away is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!input.TakeBack && input.UntilDay < away.FromDay)
            return Outcome<Saved>.Refused(nameof(input.UntilDay), "The last day comes before the first. If the learner was not away at all, take it back.");
        db.BeganOn(away, input.Version);
        if (input.TakeBack)
            away.Live = false;
        else
            away.UntilDay = input.UntilDay;
        return Outcome<Saved>.Of(new(away.UntilDay, await AwayVisits.ApplyAsync(db, away, caller.Today, stop)));
    }
}
