using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Core.Time;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Calendar;

/// <summary>Schedules one visit: a provider for themselves, the case manager for anybody on the learner's team.</summary>
public sealed class ScheduleVisit(Portal portal)
{
    public sealed record Input : NewVisitInput
    {
        public LocalDate? OnDay { get; init; }

        /// <summary>For a make-up: a day of the window that it pays.</summary>
        public LocalDate? PaysOn { get; init; }

        /// <summary>The award of compensatory services that it is for.</summary>
        public int? AwardId { get; init; }
    }

    public sealed record Saved(Guid Visit, LocalDate OnDay);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(ScheduleVisit), input), db => WorkAsync(db, caller, input, stop), stop);

    /// <summary>What stands against it as far as it is filled in; nothing is written. Empty where it cannot be read yet.</summary>
    public Task<IReadOnlyList<Clash>> ClashesAsync(Caller caller, Input input, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.Of(caller), async db =>
        {
            var read = await VisitSpec.ReadAsync(db, caller, input, stop);
            return read.Value is { } spec && input.OnDay is { } day
                ? (await DayBook.ReadAsync(db, spec with { PaysOn = input.PaysOn }, day, day, [], stop)).Clashes(day)
                : [];
        }, stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var read = await VisitSpec.ReadAsync(db, caller, input, stop);
        List<Problem> problems = [.. read.Problems];
        if (input.OnDay is not { } day)
            problems.Add(new(nameof(input.OnDay), "Choose the day."));
        else if (day < caller.Today)
            problems.Add(new(nameof(input.OnDay), "That day is past. Log the visit instead."));
        else if (day > caller.Today.PlusDays(CalendarRules.MostDaysAhead))
            problems.Add(new(nameof(input.OnDay), "Visits are scheduled at most 400 days ahead."));
        else if (read.Value is { } spec)
            return await StoreAsync(db, spec with { PaysOn = input.PaysOn, AwardId = input.AwardId }, day, input.Confirmed, stop);
        return Outcome<Saved>.Refused(problems);
    }

    private static async Task<Outcome<Saved>> StoreAsync(PortalDb db, VisitSpec spec, LocalDate day, bool confirmed, CancellationToken stop)
    {
        await DayLock.TakeAsync(db, spec.Agency, day, [spec.Provider], [spec.Learner.Id], stop);
        var book = await DayBook.ReadAsync(db, spec, day, day, [], stop);
        if (ClashProblems.Of(book.Clashes(day), confirmed) is { Count: > 0 } clashes)
            return Outcome<Saved>.Refused(clashes);
        if (await PaysNothingAsync(db, spec, stop))
            return Outcome<Saved>.Refused(nameof(Input.PaysOn), "Nothing of this service was owed around that day.");
        if (await WrongAwardAsync(db, spec, stop) is { } award)
            return Outcome<Saved>.Refused(nameof(Input.AwardId), award);
        var visit = spec.Row(day);
        visit.OnClosedDay = !book.IsSchoolDay(day);
        book.Join(visit);
        db.Add(visit);
        db.AddRange(spec.Routines.Select(r => new VisitRoutineRow { AgencyId = spec.Agency, LearnerId = spec.Learner.Id, VisitId = visit.Id, RoutineId = r }));
        return Outcome<Saved>.Of(new(visit.Id, day));
    }

    private static async Task<bool> PaysNothingAsync(PortalDb db, VisitSpec spec, CancellationToken stop)
    {
        if (spec.PaysOn is not { } day)
            return false;
        if (spec.Service is not { } service)
            return true;
        var rules = await AgencyRules.ReadAsync(db, spec.Agency, stop);
        var lines = await ReadLines.ServicesAsync(db, new(spec.Agency, [spec.Learner.Id]), rules, stop);
        return lines.First(l => l.Id == service.Id).Windows.Find(Day.Of(day)) < 0
            && !await db.Debts.AnyAsync(d => d.AgencyId == spec.Agency && d.ServiceId == service.Id && d.PeriodId == null && d.Live && d.OnDay == day, stop);
    }

    private static async Task<string?> WrongAwardAsync(PortalDb db, VisitSpec spec, CancellationToken stop)
    {
        if (spec.AwardId is not { } id)
            return null;
        var award = await db.Awards.AsNoTracking().SingleOrDefaultAsync(a => a.AgencyId == spec.Agency && a.Id == id && a.Live, stop);
        return spec.PaysOn is not null ? "A visit for an award of compensatory services pays for nothing else. Choose one of the two."
            : spec.Service is not { } service || award?.IsGivenBy(service) != true ? "That award is not given by this service."
            : award.MayGive.Length > 0 && !award.MayGive.Contains(spec.Provider) ? "The paper names others who may give this award."
            : null;
    }
}
