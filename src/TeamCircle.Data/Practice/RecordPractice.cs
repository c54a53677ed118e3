using System.Globalization;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Practice;

/// <summary>Stores one practice with its trials.</summary>
public sealed class RecordPractice(Portal portal, TimeProvider clock)
{
    /// <summary>A device's clock that differs by more than this is said.</summary>
    public static readonly Duration ShownSkew = Duration.FromMinutes(5);

    /// <param name="SkewMs">How far the device's clock was ahead of the portal's; null where nobody knows.</param>
    /// <param name="Provider">Who practised; null: the caller. Only a case manager may name somebody else.</param>
    public sealed record Input(PracticeRecord Record, int? SkewMs = null, Guid? Device = null, int? Provider = null);

    public sealed record Saved(Guid Practice, int Learner, IReadOnlyList<string> Notices);

    /// <summary>The act under its id: the same record is the same act, whichever device sends it.</summary>
    public static Operation OperationOf(Guid id, PracticeRecord record) => new(
        id, nameof(RecordPractice), System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(PracticeJson.Write(record))));

    /// <summary>Refused with <see cref="Problem.NotFound"/> where the routine is none of the caller's.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), OperationOf(operation, input.Record), db => InAsync(db, caller, input, stop), stop);

    internal async Task<Outcome<Saved>> InAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var record = input.Record;
        var version = await db.RoutineVersions.AsNoTracking()
            .SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.Id == record.Version && v.RoutineId == record.Routine, stop);
        if (version is null || !RecordRules.MayRecord(caller, version.LearnerId, input.Provider ?? caller.PersonId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var zone = await db.Agencies.Where(a => a.Id == caller.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
        var card = RoutineContent.Read(version.Content);
        var steps = AgreedStep.Of(card);
        var row = RowOf(caller, input, version, DateTimeZoneProviders.Tzdb[zone]);
        Problem[] problems = [
            .. PracticeRules.Check(record, steps), .. Clock(row), .. await NamedAsync(db, row, stop), .. await MayBePractisedAsync(db, row, card, version, stop), .. await HeldAsync(db, row, record, card, version, stop)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(row);
        await SeeCautions.KeepAsync(db, row.ProviderId, version, stop); // the sheet and the card show them before anybody begins
        db.AddRange(PracticeFigures.Of(record, steps).Trials.Select(t => TrialOf(row, t, steps.First(s => s.Key == t.Trial.Step).Goals)));
        return Outcome<Saved>.Of(new(row.Id, row.LearnerId, [.. Notices(row)]));
    }

    private static PracticeRow RowOf(Caller caller, Input input, RoutineVersionRow version, DateTimeZone zone)
    {
        var ahead = Duration.FromMilliseconds(input.SkewMs ?? 0);
        var started = input.Record.StartedAt - ahead;
        return new()
        {
            AgencyId = caller.AgencyId,
            Id = input.Record.Id,
            LearnerId = version.LearnerId,
            RoutineId = version.RoutineId,
            VersionId = version.Id,
            VisitId = input.Record.Visit,
            ProviderId = input.Provider ?? caller.PersonId,
            Entry = input.Record.Entry,
            StartedAt = started,
            EndedAt = input.Record.EndedAt - ahead,
            OnDay = started.InZone(zone).Date,
            Record = PracticeJson.Write(input.Record),
            SkewMs = input.SkewMs,
            DeviceId = input.Device,
            Observes = input.Record.Observes,
        };
    }

    private static TrialRow TrialOf(PracticeRow practice, TrialTimeline trial, IReadOnlyList<int> goals) => new()
    {
        AgencyId = practice.AgencyId,
        Id = trial.Trial.Id,
        LearnerId = practice.LearnerId,
        PracticeId = practice.Id,
        Step = trial.Trial.Step,
        Goals = [.. goals],
        Ending = trial.End,
        PromptsNeeded = trial.PromptsNeeded,
        Response = trial.Response,
        TimeToRespond = trial.TimeToRespond,
        Completed = trial.Completed,
        CensoredAt = trial.CensoredAt,
        Waited = trial.WaitThatEndedInResponse,
        WaitKept = trial.WaitKept,
        AtOnce = trial.Trial.AtOnce,
        Counts = trial.Trial.Counts,
        Remembered = trial.Trial.Remembered is not null,
    };

    private IEnumerable<Problem> Clock(PracticeRow row)
    {
        if (row.EndedAt > Instant.FromDateTimeOffset(clock.GetUtcNow()) + ShownSkew)
            yield return new("EndedAt", "By the device's clock this practice ends in the time to come. Its clock was set wrong.");
    }

    /// <summary>The visit and the practice that it names are this learner's.</summary>
    private static async Task<IReadOnlyList<Problem>> NamedAsync(PortalDb db, PracticeRow row, CancellationToken stop)
    {
        var problems = new List<Problem>();
        if (row.VisitId is { } visit && !await db.Visits.AnyAsync(v => v.AgencyId == row.AgencyId && v.LearnerId == row.LearnerId && v.Id == visit, stop))
            problems.Add(new("Visit", "The visit that it names is not one of this learner's."));
        if (row.Observes is { } other && !await db.Practices.AnyAsync(p => p.AgencyId == row.AgencyId && p.RoutineId == row.RoutineId && p.Id == other && p.Live, stop))
            problems.Add(new("Observes", "The practice that it scores a second time is not on record for this routine."));
        return problems;
    }

    /// <summary>A routine with positioning or physical assistance is practised only while a review holds.</summary>
    private static async Task<IReadOnlyList<Problem>> MayBePractisedAsync(
        PortalDb db, PracticeRow row, RoutineContent card, RoutineVersionRow version, CancellationToken stop)
    {
        if (!ReviewRules.IsNeeded(card))
            return [];
        var months = await db.Agencies.Where(a => a.Id == row.AgencyId).Select(a => a.ReviewMonths).SingleAsync(stop);
        var reviews = await RoutineReviews.GivenAsync(db, row.AgencyId, [row.RoutineId], stop);
        var standing = ReviewRules.Standing(card, version.Number, reviews[row.RoutineId], months, row.OnDay);
        return standing.State == ReviewState.Missing
            ? [new("Version", "The routine has positioning or physical assistance in it, and no review of it held on that day.")]
            : [];
    }

    /// <summary>Nothing is practised that was on hold when the practice began, whoever had heard of it; a step that was left out is none of it.</summary>
    private static async Task<IEnumerable<Problem>> HeldAsync(
        PortalDb db, PracticeRow row, PracticeRecord record, RoutineContent card, RoutineVersionRow version, CancellationToken stop)
    {
        var holds = await HoldFacts.StoppedAtAsync(db, version, card, row.StartedAt, stop);
        return holds.Where(h => h.StepKey is not { } step || record.Trials.Any(t => t.Step == step) || record.Steps.Any(s => s.Step == step && s.Done != HowDone.Skipped))
            .Select(h => new Problem("Version", h.StepKey is null ? $"There was a hold on it: {h.Reason}" : $"There was a hold on one of its steps: {h.Reason}"));
    }

    private static IEnumerable<string> Notices(PracticeRow row)
    {
        if (row.SkewMs is { } ms && Math.Abs((long)ms) > ShownSkew.TotalMilliseconds)
            yield return string.Create(CultureInfo.InvariantCulture,
                $"The device's clock was {Math.Abs(ms) / 60_000} minutes {(ms > 0 ? "ahead" : "behind")}; day and times were put right.");
    }
}
