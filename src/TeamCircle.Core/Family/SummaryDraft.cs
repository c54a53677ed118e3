using NodaTime;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Sessions;
using static TeamCircle.Core.Family.FamilyGlossary;

namespace TeamCircle.Core.Family;

/// <summary>What is on record for a summary's span of days, and what comes after it.</summary>
/// <param name="Visits">In order of time.</param>
/// <param name="Practised">By routine: at how many visits it was practised; the most first.</param>
/// <param name="Goals">In the plan's order.</param>
/// <param name="Coming">Visits to come, in order of time.</param>
/// <param name="Home">What is agreed for home.</param>
public sealed record SummaryFacts(
    IReadOnlyList<FamilyVisit> Visits, IReadOnlyList<PractisedRoutine> Practised, IReadOnlyList<SummaryGoalFacts> Goals, IReadOnlyList<FamilyVisit> Coming,
    IReadOnlyList<HomeCard> Home);

public sealed record PractisedRoutine(string Name, int Visits);

/// <param name="Statement">As the plan says it.</param>
/// <param name="Plain">In plain words; empty where nobody wrote them.</param>
/// <param name="Points">Checks of the span that count for the goal, oldest first.</param>
public sealed record SummaryGoalFacts(int Goal, string Statement, Both Plain, Measure Measure, Better Better, IReadOnlyList<SummaryPoint> Points);

/// <param name="Weekdays">Empty where none is agreed.</param>
/// <param name="Days">Single days more.</param>
/// <param name="Cue">The object that tells the child what comes next; null where none is agreed.</param>
public sealed record HomeCard(string Routine, IReadOnlyList<IsoDayOfWeek> Weekdays, IReadOnlyList<LocalDate> Days, string? Who, string? Cue);

/// <summary>The first words of a summary, made from facts in one language; a person then makes them their own.</summary>
/// <remarks>Names of routines, cues and people stand as the team wrote them; what else the team wrote is left out of the other language.</remarks>
public sealed class SummaryDraft(FamilySentences sentences)
{
    /// <summary>With more visits than this the given ones are told together by provider, so that a summary stays one sheet: our choice.</summary>
    public const int MostSingleVisits = 12;

    private readonly Language _language = sentences.Language;
    private readonly FamilyDates _dates = sentences.Dates;

    /// <summary>The draft in both languages. What was the child's own nobody can make from facts: it stays empty.</summary>
    public static SummaryContent Of(SummaryFacts facts, string child, string? caseManager)
    {
        var (english, spanish) = (new SummaryDraft(new(Language.English, child, caseManager)), new SummaryDraft(new(Language.Spanish, child, caseManager)));
        Both Make(Func<SummaryDraft, IEnumerable<string>> lines) => new Both(string.Join('\n', lines(english)), string.Join('\n', lines(spanish))).Trimmed();
        return new(
            Make(d => d.Visits(facts.Visits)), Make(d => d.Practised(facts.Practised)), new(), Make(d => d.Next(facts.Coming)), Make(d => d.Home(facts.Home)),
            [.. facts.Goals.Select(g => new SummaryGoal(
                g.Goal, g.Measure, g.Better, g.Plain.English is null ? g.Plain with { English = g.Statement } : g.Plain, Make(d => [d.Progress(g)]), g.Points))]);
    }

    /// <summary>5 of 8 tries with no help, as a family reads it: a percent is said as its count.</summary>
    public string Value(Measure measure, SummaryPoint point)
    {
        var (child, number) = (sentences.Child, FamilyDates.Number(point.Value));
        return (measure, point.Of) switch
        {
            (Measure.PercentIndependent, { } all) => OnOwn.In(_language, child, FamilyDates.Number((int)Math.Round(point.Value * all / 100, MidpointRounding.AwayFromZero)), FamilyDates.Number(all)),
            (Measure.PercentIndependent, null) => OnOwnShare.In(_language, child, FamilyDates.Number((int)Math.Round(point.Value, MidpointRounding.AwayFromZero))),
            (Measure.ResponsesOf, { } all) => OfTries.In(_language, number, FamilyDates.Number(all)),
            (Measure.AveragePromptsNeeded, _) => Help.In(_language, number),
            (Measure.TimeToRespond, _) => Takes.In(_language, child, number),
            (Measure.Duration, _) => Lasts.In(_language, number),
            (Measure.Rate, _) => PerMinute.In(_language, number),
            (Measure.OwnScale, _) => OnScale.In(_language, number),
            _ => Times.In(_language, number),
        };
    }

    private IEnumerable<string> Visits(IReadOnlyList<FamilyVisit> visits)
    {
        if (visits.Count <= MostSingleVisits)
            return visits.Select(OneVisit);
        var told = visits.Where(v => v is { IsCalledOff: false, Outcome: VisitOutcome.Given, Reason: null, Withheld: null }).ToList();
        var together = told.GroupBy(v => (v.Provider, v.Discipline)).Select(g => GaveOnDays.In(
            _language, g.Key.Provider, _dates.Minutes(g.Sum(v => v.Given)), g.Key.Discipline is { } d ? sentences.Service(d) : sentences.For(g.First()),
            _dates.Visits(g.Count()), _dates.Days(g.Select(v => v.On))));
        return together.Concat(visits.Except(told).Select(OneVisit));
    }

    private string OneVisit(FamilyVisit visit) => OnDay.In(_language, FamilyDates.Begin(_dates.Weekday(visit.On)), sentences.Before(visit));

    private IEnumerable<string> Practised(IReadOnlyList<PractisedRoutine> routines) =>
        routines.Select(r => PractisedIn.In(_language, r.Name, _dates.Visits(r.Visits)));

    /// <summary>The next visit of each person who comes.</summary>
    private IEnumerable<string> Next(IReadOnlyList<FamilyVisit> coming) => coming.Where(v => v is { IsCalledOff: false, Outcome: null })
        .GroupBy(v => (v.Provider, v.Discipline)).Select(g => g.First())
        .Select(v => NextVisit.In(_language, $"{FamilyDates.Begin(_dates.Weekday(v.On))}, {_dates.Time(v.Start)}", v.Provider, sentences.For(v)));

    private IEnumerable<string> Home(IReadOnlyList<HomeCard> cards) => cards.Select(card =>
    {
        var days = _dates.List([.. card.Weekdays.Select(d => EachWeekday[(int)d - 1].In(_language)), .. card.Days.Select(_dates.Weekday)]);
        var ours = _language == Language.English;
        var line = ours && card.Who is { } who ? AtHomeWith.In(_language, card.Routine, days, who) : AtHomeOn.In(_language, card.Routine, days);
        return ours && card.Cue is { } cue ? $"{line} {BeginsWith.In(_language, cue)}" : line;
    });

    private string Progress(SummaryGoalFacts goal) => goal.Points.Count == 0
        ? NoCheck.In(_language) : LastCheck.In(_language, _dates.Day(goal.Points[^1].Day), Value(goal.Measure, goal.Points[^1]));
}
