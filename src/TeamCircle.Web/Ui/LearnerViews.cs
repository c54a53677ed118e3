using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Ui;

/// <summary>A service on the learner's page: the plan's words beside our reading of them, and where it stands.</summary>
public sealed record ServiceView(ServiceShown Service, Standings Standings, LocalDate Today)
{
    /// <summary>Null where it does not run in the reporting period.</summary>
    public StandingLine? Standing => Standings.OfService(Service.Id);

    public AmountShown? Amount => Service.On(Today);

    /// <summary>60 minutes a week in 2 sessions, individual, at home.</summary>
    public string Reading => Amount is not { } amount ? "no amount entered"
        : $"{Say.Promise(amount.Minutes, amount.MinutesTo, amount.Sessions, Service.Every)}, {Say.Format(Service.Format)}, {Say.Place(Service.Place)}";

    /// <summary>Who may give it, each with dates where they are not the service's own.</summary>
    public string Givers
    {
        get
        {
            var people = Service.Assigned.Where(a => a.To >= Today).Select(a =>
                a.From <= Today && a.To >= Service.To ? a.Name : $"{a.Name} ({Say.Dates(a.From, a.To)})").ToList();
            return people.Count == 0 ? "nobody yet" : Say.List(people);
        }
    }

    /// <summary>Amendments: from when, what, why; empty where the plan stands as first written.</summary>
    public IEnumerable<string> Amendments => Service.Versions.Skip(1).Select(v =>
        $"From {Say.Date(v.From)}: {Say.Promise(v.Minutes, v.MinutesTo, v.Sessions, Service.Every)}{(v.Reason is null ? "" : $" ({v.Reason})")}");

    /// <summary>What the agency's rules make of weeks with fewer school days, where the service has its own rule.</summary>
    public string? OwnRule => Service.ShortWindow is { } rule ? $"Windows with fewer school days: {Say.ShortWindow(rule)}" : null;

    public string Together => Service.CoTreatment switch
    {
        CoTreatment.Full => "counts in full for both",
        CoTreatment.Shared => "each counts the minutes stated for it",
        CoTreatment.Lead => "counts for whoever leads",
        _ => "does not count twice",
    };
}

/// <summary>A goal on the learner's page, with where its probes stand.</summary>
public sealed record GoalView(GoalShown Goal, Standings Standings, LocalDate Today, IReadOnlyList<MemberShown> Team)
{
    /// <summary>Of whom the probes of a line are asked; null where they are asked of all owners together.</summary>
    public string? OwnerOf(StandingLine line) => line.Line.OwnerId is { } owner ? Team.FirstOrDefault(m => m.PersonId == owner)?.Name : null;

    public IEnumerable<StandingLine> Lines => Standings.OfGoal(Goal.Id);

    public string Owners => Goal.Owners.Where(o => o.To >= Today).Select(o => o.Name).Distinct().ToList() is { Count: > 0 } names
        ? Say.List(names) : "nobody yet";

    /// <summary>1 probe a week by each owner.</summary>
    public string Asked => Goal.Asked is { } asked
        ? $"{Say.Probes(asked.Probes)} {Say.Every(asked.Every)} {(asked.ByEach ? "by each owner" : "by any of the owners")}"
        : "none asked";

    /// <summary>Percent without help: from 20 to 80 by 30 May 2027; on 3 of the last 4 days.</summary>
    public string Measure
    {
        get
        {
            var words = Say.Begin(Say.Measure(Goal.Terms.Measure));
            if (Goal.Target is { } target)
                words += $": {(Goal.Terms.Baseline is { } from ? $"from {GoalWords.Number(from)} " : "")}to {GoalWords.Number(target)}";
            if (Goal.TargetDay is { } day)
                words += $" by {Say.Date(day)}";
            return GoalWords.Criterion(Goal.Terms) is { } criterion ? $"{words}; {criterion}" : words;
        }
    }

    public GoalStrip? Strip => GoalStrip.Of(Goal, Today);
}

/// <summary>A part of "How we teach" on the learner's page.</summary>
/// <param name="Holds">Those that lie on it.</param>
public sealed record TeachPartView(int Learner, PartShown Part, IEnumerable<HoldShown> Holds, bool MaySetHold);

/// <summary>A member of the team in words.</summary>
public static class MemberWords
{
    /// <summary>Case manager, special education teacher; family.</summary>
    public static string Of(MemberShown member)
    {
        List<string> parts = member.Relation is Relation.Team ? [] : [Say.Relation(member.Relation)];
        if (member.Relation is not Relation.Family)
            parts.AddRange(member.Disciplines.Select(Say.Profession));
        return Say.Begin(parts.Count == 0 ? "on the team" : string.Join(", ", parts));
    }

    /// <summary>Null where there is nothing to say: here since before today and with no end.</summary>
    public static string? Dates(MemberShown member, LocalDate today) => (member.From > today, member.To) switch
    {
        (true, { } to) => $"from {Say.Dates(member.From, to)}",
        (true, null) => $"from {Say.Date(member.From)} on",
        (false, { } to) => $"until {Say.Date(to)}",
        _ => null,
    };
}
