using System.Data;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Quiet;

namespace TeamCircle.Data.MakeUps;

/// <summary>Reads what windows lack and when it could be made up: all that the planner takes, as it stands at one moment.</summary>
public sealed class ReadMakeUps(Portal portal)
{
    /// <summary>The most days on which visits are proposed; later ones can be looked for later.</summary>
    private const int MostDays = 30;

    /// <summary>Where no day of the period is left, this many after it.</summary>
    private const int DaysAfter = 10;
    private const int LooksAhead = 60;

    /// <summary>Null where the agency has no reporting period yet.</summary>
    /// <param name="refused">Visits that a person does not want.</param>
    public async Task<MakeUpFacts?> RunAsync(
        Caller caller, Scope scope, MakeUpAsk ask, IReadOnlyCollection<RefusedDay> refused, CancellationToken stop = default)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        work.Db.ChangeTracker.QueryTrackingBehavior = QueryTrackingBehavior.NoTracking;
        return await ReadAsync(work.Db, caller, ask, refused, stop);
    }

    /// <summary>Whether a learner for whom something was found has become quiet since: then it is proposed no longer.</summary>
    public Task<bool> HasQuietAsync(Scope scope, MakeUpFacts facts, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var quiet = await QuietLearners.ReadAsync(db, scope.AgencyId, stop);
        return facts.Lacking.Any(l => quiet.Contains(l.Line.LearnerId));
    }, stop);

    /// <summary>The same inside a transaction: also what an acceptance is held to.</summary>
    internal static async Task<MakeUpFacts?> ReadAsync(
        PortalDb db, Caller caller, MakeUpAsk ask, IReadOnlyCollection<RefusedDay> refused, CancellationToken stop)
    {
        caller = await QuietLearners.LeaveOutAsync(db, caller, stop);
        var rules = await AgencyRules.ReadAsync(db, caller.AgencyId, stop);
        if (PeriodOf(rules, ask, caller.Today) is not { } period)
            return null;
        int[] learners = [.. caller.Learners.Where(l => caller.IsMember(l) && (ask.Learner is null || ask.Learner == l))];
        var read = new ReadFacts(db, new(caller.AgencyId, learners), rules, Day.Of(caller.Today));
        var names = AuditNames.Read(read.Also, read.Rows);
        var (lacking, unassigned) = Lacking(await read.RunAsync(stop), caller, ask, period);
        var places = await PlannerPlaces.ReadAsync(db, caller.AgencyId, stop);
        var needs = lacking.Select(l => l.Need(places.Of(l.Found.Line.LearnerId, l.Found.Line.Service!.Place))).ToList();
        var days = DaysLeft(rules.Calendar.For(LineTerms.Both), period, caller.Today);
        var (problem, assumed) = await ProblemAsync(db, rules, needs, days, places, stop);
        problem = problem with { Refused = [.. refused.Select(r => ($"{r.Service}", Day.Of(r.Window), Day.Of(r.Day)))] };
        return new(period, problem, [.. lacking.Select(l => l.Found)], unassigned, names, assumed);
    }

    /// <summary>The period that was asked for; else the last that has begun.</summary>
    private static PeriodRow? PeriodOf(AgencyRules rules, MakeUpAsk ask, LocalDate today) =>
        rules.Periods.FirstOrDefault(p => p.Id == ask.Period) ?? rules.Periods.LastOrDefault(p => p.StartDay <= today)
        ?? (rules.Periods.Count > 0 ? rules.Periods[0] : null);

    private static (List<(LackingWindow Found, Func<string, Need> Need)> Lacking, List<CommitmentLine> Unassigned) Lacking(
        CommitmentFacts facts, Caller caller, MakeUpAsk ask, PeriodRow period)
    {
        var today = Day.Of(caller.Today);
        var windows = new LackingWindows(facts, DateRange.Of(period.StartDay, period.EndDay), today);
        var (lacking, unassigned) = (new List<(LackingWindow, Func<string, Need>)>(), new List<CommitmentLine>());
        for (var i = 0; i < facts.Lines.Count; i++)
        {
            var line = facts.Lines[i];
            if (line.IsProbes || (ask.Service ?? line.Id) != line.Id || windows.Of(i).ToList() is not { Count: > 0 } found)
                continue;
            var provider = line.Named.FirstOrDefault(n => n.Days.Last >= today).PersonId;
            if (provider == 0 && caller.Manages(line.LearnerId))
                unassigned.Add(line);
            else if (provider != 0 && MakeUpFacts.MayPlan(caller, line.LearnerId, provider))
                lacking.AddRange(found.Select(f => (new LackingWindow(line, f.Window.Window.Days, provider, f.Minutes),
                    (Func<string, Need>)(place => LackingWindows.Need(line, f.Window, f.Minutes, provider, place)))));
        }
        return (lacking, unassigned);
    }

    private static async Task<(MakeUpProblem Problem, MakeUpAssumed Assumed)> ProblemAsync(
        PortalDb db, AgencyRules rules, List<Need> needs, List<int> days, PlannerPlaces places, CancellationToken stop)
    {
        var calendar = new PlannerCalendar(db, rules.Agency.Id, rules.Agency.TimeZone, days);
        var (providers, noHours) = await calendar.ProvidersAsync(Numbers(needs.Select(n => n.Provider)), stop);
        var (learners, noOpenHours) = await calendar.LearnersAsync(Numbers(needs.Select(n => n.Learner).OfType<string>()), stop);
        var busy = await calendar.BusyAsync(Numbers(needs.Select(n => n.Provider)), places, stop);
        var stops = needs.Select(n => (n.Provider, n.Place)).Concat(busy.Where(b => providers.Exists(p => p.Id == b.Provider)).Select(b => (b.Provider, b.Place)));
        var (travel, minutes) = places.Travel(stops);
        var problem = new MakeUpProblem
        {
            Days = days,
            GridMinutes = LackingWindows.Grid,
            Needs = needs,
            Providers = providers,
            Learners = learners,
            Busy = busy,
            Travel = travel,
        };
        return (problem, new(noHours, noOpenHours, minutes));
    }

    /// <summary>Days with school from tomorrow to the end of the period; after it where none is left.</summary>
    private static List<int> DaysLeft(SchoolDays school, PeriodRow period, LocalDate today)
    {
        var tomorrow = Day.Of(today) + 1;
        var left = Enumerable.Range(tomorrow, Math.Max(0, Day.Of(period.EndDay) - tomorrow + 1)).Where(school.IsInstructional).Take(MostDays).ToList();
        return left.Count > 0 ? left : [.. Enumerable.Range(tomorrow, LooksAhead).Where(school.IsInstructional).Take(DaysAfter)];
    }

    private static int[] Numbers(IEnumerable<string> ids) => [.. ids.Distinct().Select(id => int.Parse(id, CultureInfo.InvariantCulture))];
}
