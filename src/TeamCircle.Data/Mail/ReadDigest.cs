using TeamCircle.Core.Mail;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Data.Mail;

/// <summary>Counts what waits for a person, as Today lists it; quiet learners are not among it.</summary>
public sealed class ReadDigest(ReadQuiet quiet, ReadMyDay today, ReadStandingLines standings, ReadCaseload learners)
{
    public async Task<(Digest Own, DecisionDigest Decisions)> RunAsync(Caller caller, CancellationToken stop = default)
    {
        var heard = await quiet.LeaveOutAsync(caller, stop);
        var scope = Scope.Of(heard, "counting what waits, for a mail");
        var day = await today.RunAsync(heard, scope, stop);
        var weekEnd = (await learners.NamesAsync(scope, stop)).WeekEnd(heard.Today);
        var waiting = Waiting.For(heard, await standings.RunAsync(scope, heard.Today, null, stop), weekEnd);
        return (
            new(day.NotLoggedCount + day.Together.Count, waiting.Closing.Count, waiting.Probes.Count, day.Reports.Count, day.SetAside, day.Remarks.Count),
            new(waiting.Undecided.Count, day.ToMeet.Count, day.Requests.Count, day.Requests.Count(r => r.DueOn <= heard.Today.PlusDays(DecisionDigest.SoonDays)), day.DatesNear) { LastDays = day.LastDays.Count });
    }
}
