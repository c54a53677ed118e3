using System.Buffers.Binary;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Seed;

/// <summary>What happened to some learners in the school year, made from the seed and the learner's number alone.</summary>
internal sealed class LoadBatch(LocalDate asOf)
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb[LoadShape.Zone];
    private static readonly SchoolDays School = new SchoolCalendar(
        [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
        [new(LoadShape.FirstDay, LoadShape.LastDay, TermKind.Regular)],
        LoadShape.Closures.Select(d => new SpecialDay(d, ClosureKind.Published))).For(LineTerms.Regular);

    public sealed record Visit(
        Guid Id, int Learner, int Service, int Provider, LocalDate OnDay, LocalTime Start, int Minutes, VisitOutcome? Outcome, Reason? Reason,
        LocalDate? PaysOn, int? NamesGoal)
    {
        /// <summary>Its first moment, and the first one after it.</summary>
        public (Instant Start, Instant End) Span { get; } = WallTime.Span(OnDay.At(Start), Minutes, Zone);
    }

    /// <summary>What was entered of a visit: once, or wrongly first and then corrected.</summary>
    public sealed record Session(Guid Id, Visit Visit, int Minutes, bool Live, Guid? Replaces);

    public sealed record Probe(Guid Id, int Learner, int Goal, int Provider, LocalDate OnDay, int Value);

    public sealed record Card(int Learner, int Routine, RoutineContent Content, int By);

    public sealed record Practice(PracticeRecord Record, Visit At);

    public sealed record Trial(TrialTimeline Figures, Practice Of, int[] Goals);

    public sealed record Decided(int Learner, int Service, LocalDate OnDay, DecisionKind Kind, int By);

    public List<Visit> Visits { get; } = [];

    public List<Session> Sessions { get; } = [];

    public List<Card> Cards { get; } = [];

    public List<Practice> Practices { get; } = [];

    public List<Trial> Trials { get; } = [];

    public List<Probe> Probes { get; } = [];

    public List<Decided> Decisions { get; } = [];

    /// <param name="asOf">The day on which the rows are seen: earlier visits are logged, later ones planned.</param>
    public static LoadBatch Of(int seed, LocalDate asOf, int first, int learners)
    {
        var batch = new LoadBatch(asOf);
        for (var learner = first; learner < first + learners; learner++)
        {
            var visits = batch.Visits.Count;
            batch.AddLearner(learner, new Random(seed * 1_000_003 + learner));
            batch.AddEntered(learner, batch.Visits[visits..], new Random(seed * 1_000_003 + learner + 500_000_000));
        }
        return batch;
    }

    /// <summary>What people entered of the visits: each outcome, one in a hundred corrected, and a practice a week.</summary>
    private void AddEntered(int learner, List<Visit> visits, Random random)
    {
        var practice = new LoadPractice(learner, () => Id(learner, random));
        Cards.Add(new(LoadShape.Learner(learner), LoadShape.Routine(learner), practice.Card, LoadShape.Provider(learner, 0)));
        foreach (var visit in visits.Where(v => v.Outcome is not null))
        {
            Guid? corrected = random.Next(100) == 0 ? Id(learner, random) : null;
            if (corrected is { } first)
                Sessions.Add(new(first, visit, visit.Minutes + 5, false, null));
            Sessions.Add(new(visit.Id, visit, visit.Minutes, true, corrected));
            if (visit.Outcome == VisitOutcome.Given && visit.OnDay.DayOfWeek == IsoDayOfWeek.Wednesday && visit.Service == LoadShape.Service(learner, 0))
                AddPractice(practice, visit, random);
        }
    }

    private void AddPractice(LoadPractice practice, Visit visit, Random random)
    {
        var (record, trials) = practice.Make(visit.Id, visit.Span.Start + Duration.FromMinutes(5), random);
        var made = new Practice(record, visit);
        Practices.Add(made);
        Trials.AddRange(trials.Select(t => new Trial(t, made, practice.GoalsOf(t.Trial.Step))));
    }

    private void AddLearner(int learner, Random random)
    {
        if (learner % 500 == 0) // before the dates of the plan: counts for nothing
            AddVisit(learner, 0, new(2026, 8, 12), LoadShape.Start(learner, false), random, null);
        for (var week = 0; LoadShape.FirstDay.PlusWeeks(week) <= LoadShape.LastDay; week++)
        {
            for (var service = 0; service < LoadShape.Services; service++)
            {
                foreach (var (weekday, isLate) in LoadShape.Weekdays(service, week))
                    AddWeekly(learner, service, LoadShape.FirstDay.PlusWeeks(week).PlusDays((int)weekday - 1), isLate, random);
            }
        }
    }

    private void AddWeekly(int learner, int service, LocalDate day, bool isLate, Random random)
    {
        if (!School.IsScheduled(Day.Of(day)))
            return;
        var visit = AddVisit(learner, service, day, LoadShape.Start(learner, isLate), random, null);
        if (service < LoadShape.Goals && !isLate)
            AddProbe(visit, learner, service, random);
        if (visit.Outcome is not (VisitOutcome.NotOffered or VisitOutcome.Offered))
            return;
        if (random.Next(100) < 30)
            AddMakeUp(learner, service, visit, random);
        else if (random.Next(100) < 10)
            Decisions.Add(new(visit.Learner, visit.Service, day, visit.Reason <= Reason.FamilyAway ? DecisionKind.NotOwed : DecisionKind.MakeUp, visit.Provider));
    }

    private Visit AddVisit(int learner, int service, LocalDate day, LocalTime start, Random random, LocalDate? paysOn)
    {
        VisitOutcome? outcome = day >= asOf ? null : random.Next(100) switch
        {
            < 88 => VisitOutcome.Given,
            < 92 => VisitOutcome.Offered,
            _ => VisitOutcome.NotOffered,
        };
        Reason? reason = outcome is null or VisitOutcome.Given ? null : (Reason)random.Next((int)Reason.Other);
        int? goal = outcome is null && random.Next(50) == 0 ? LoadShape.Goal(learner, 0) : null;
        var visit = new Visit(Id(learner, random), LoadShape.Learner(learner), LoadShape.Service(learner, service), LoadShape.Provider(learner, service),
            day, start, 25 + random.Next(11), outcome, reason, paysOn, goal);
        Visits.Add(visit);
        return visit;
    }

    private void AddMakeUp(int learner, int service, Visit missed, Random random)
    {
        var day = missed.OnDay.Next(LoadShape.MakeUpDay(service)).PlusWeeks(random.Next(4));
        var start = LoadShape.MakeUpStart(learner);
        var isTaken = Visits.FindLastIndex(v => v.Service == missed.Service && v.OnDay == day && v.Start == start) >= 0;
        if (School.IsScheduled(Day.Of(day)) && !isTaken)
            AddVisit(learner, service, day, start, random, missed.OnDay);
    }

    private void AddProbe(Visit visit, int learner, int goal, Random random)
    {
        if (visit.Outcome == VisitOutcome.Given && random.Next(100) < 80)
            Probes.Add(new(Id(learner, random), visit.Learner, LoadShape.Goal(learner, goal), visit.Provider, visit.OnDay, random.Next(101)));
    }

    /// <summary>Ids of one learner lie side by side, as real ones lie in order of time: otherwise each row would fall into another page of
    /// the indexes on them.</summary>
    private static Guid Id(int learner, Random random)
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        BinaryPrimitives.WriteInt32BigEndian(bytes, learner);
        (bytes[6], bytes[8]) = ((byte)(0x70 | bytes[6] & 0x0f), (byte)(0x80 | bytes[8] & 0x3f));
        return new Guid(bytes, bigEndian: true);
    }
}
