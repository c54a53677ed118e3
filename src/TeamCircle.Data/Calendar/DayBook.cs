using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Data.Calendar;

/// <summary>What stands on some days for a visit that somebody means to schedule, and what follows from it by the rules.</summary>
internal sealed class DayBook
{
    private readonly VisitSpec _spec;
    private readonly Travelling _travelling;
    private readonly string _provider;
    private readonly SchoolDays _school;
    private readonly Dictionary<LocalDate, string> _closures;
    private readonly IReadOnlyList<AwayRow> _aways;
    private readonly ILookup<LocalDate, VisitRow> _visits;
    private readonly ILookup<LocalDate, BusyTime> _busy;
    private readonly Dictionary<int, string> _names;

    private DayBook(
        VisitSpec spec, AgencyRules rules, Travelling travelling, IReadOnlyList<AwayRow> aways, Dictionary<LocalDate, string> closures,
        IEnumerable<VisitRow> visits, IEnumerable<BusyTime> busy, Dictionary<int, string> names)
    {
        (_spec, _travelling, _aways, _closures, _names) = (spec, travelling, aways, closures, names);
        _provider = names.GetValueOrDefault(spec.Provider, "This person");
        _school = rules.Calendar.For(spec.Service?.Terms ?? LineTerms.Both);
        _visits = visits.ToLookup(v => v.OnDay);
        _busy = busy.ToLookup(b => b.Starts.Date);
    }

    /// <param name="first">The first and the last day that are asked about; both belong to it.</param>
    /// <param name="without">Visits that are being changed: they do not stand in their own way.</param>
    public static async Task<DayBook> ReadAsync(
        PortalDb db, VisitSpec spec, LocalDate first, LocalDate last, IReadOnlyCollection<Guid> without, CancellationToken stop)
    {
        var (agency, learner, provider) = (spec.Agency, spec.Learner.Id, spec.Provider);
        var visits = await db.Visits.AsNoTracking()
            .Where(v => v.AgencyId == agency && (v.LearnerId == learner || v.ProviderId == provider) && v.OnDay >= first && v.OnDay <= last
                && v.Live && v.TakesTime && v.State != VisitState.CalledOff).OrderBy(v => v.OnDay).ThenBy(v => v.StartTime).ToListAsync(stop);
        var own = visits.Where(v => without.Contains(v.Id)).ToList();
        var aways = await db.Aways.AsNoTracking()
            .Where(a => a.AgencyId == agency && a.LearnerId == learner && a.Live && a.FromDay <= last && (a.UntilDay == null || a.UntilDay >= first)).ToListAsync(stop);
        var closures = await db.Closures.Where(c => c.AgencyId == agency && c.Live && c.Kind != ClosureKind.Extra && c.OnDay >= first && c.OnDay <= last)
            .ToDictionaryAsync(c => c.OnDay, c => c.Name, stop);
        var names = await db.People.Where(p => p.AgencyId == agency).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        return new(spec, await AgencyRules.ReadAsync(db, agency, stop), await Travelling.ReadAsync(db, spec, stop), aways, closures,
            visits.Except(own), await BusyTime.OthersAsync(db, spec, first, last, visits, stop), names);
    }

    /// <summary>What stands against a visit by the spec on that day.</summary>
    public IReadOnlyList<Clash> Clashes(LocalDate day) => ClashRules.Find(
        new(day, _spec.Start, _spec.Minutes, _travelling.Here, _spec.IsLearnersTime, _spec.PaysOn is not null), Facts(day));

    public bool IsSchoolDay(LocalDate day) => _school.IsInstructional(Day.Of(day));

    /// <summary>The name of the closure that day; null for an ordinary day without school.</summary>
    public string? ClosedBy(LocalDate day) => _closures.GetValueOrDefault(day);

    /// <summary>How many school days there are in a range.</summary>
    public int SchoolDays(LocalDate first, LocalDate last) => first > last ? 0 : _school.Instructional(DateRange.Of(first, last));

    /// <summary>The learner's time away that holds the day.</summary>
    public AwayRow? AwayOn(LocalDate day) => _aways.FirstOrDefault(a => a.FromDay <= day && (a.UntilDay is null || a.UntilDay >= day));

    /// <summary>Makes the visit one with what it may share its time with: a group session, a co-treatment.</summary>
    public void Join(VisitRow row)
    {
        if (_visits[row.OnDay].FirstOrDefault(IsGroupMate) is { } mate)
            row.GroupNo = mate.GroupNo;
        if (_visits[row.OnDay].FirstOrDefault(v => IsTogether(v) && Meets(v)) is { } other)
            row.TogetherNo = other.TogetherNo;
    }

    private DayFacts Facts(LocalDate day) => new()
    {
        Provider = _provider,
        OfProvider = [.. _visits[day].Where(v => v.ProviderId == _spec.Provider).Select(v => Taken(v, IsGroupMate(v))), .. _busy[day].Select(b => b.Taken)],
        OfLearner = [.. _visits[day].Where(v => v.LearnerId == _spec.Learner.Id).Select(v => Taken(v, !v.LearnersTime || IsTogether(v)))],
        Travel = _travelling.Minutes,
        IsSchoolDay = IsSchoolDay(day),
        ClosedBy = ClosedBy(day),
        AwayUntil = AwayOn(day) is not { } away ? null : away.UntilDay is { } until ? $"until {ClockWords.Day(until)}" : "until further notice",
        Service = _spec.Service is { } service ? DateRange.Of(service.FromDay, service.ToDay) : null,
        MostMinutes = _spec.Learner.MostMinutesADay,
    };

    private TakenTime Taken(VisitRow visit, bool mayShare) => new(
        visit.StartTime, visit.StartTime.PlusMinutes(visit.Minutes), _travelling.PlaceOf(visit),
        _names.GetValueOrDefault(visit.ProviderId, "somebody"), mayShare, visit.LearnersTime);

    // As logging has it: what one person does at the same time with several learners, or with adults, is one group.
    private bool IsGroupMate(VisitRow visit) =>
        visit.ProviderId == _spec.Provider && visit.LearnerId != _spec.Learner.Id && (_spec.Format == SessionFormat.Group || !_spec.IsLearnersTime)
        && (visit.Format, visit.LearnersTime, visit.StartTime, visit.Minutes) == (_spec.Format, _spec.IsLearnersTime, _spec.Start, _spec.Minutes);

    private bool IsTogether(VisitRow visit) => visit.LearnerId == _spec.Learner.Id && visit.ProviderId == _spec.Partner;

    private bool Meets(VisitRow visit) =>
        visit.StartTime < _spec.Start.PlusMinutes(_spec.Minutes) && _spec.Start < visit.StartTime.PlusMinutes(visit.Minutes);
}
