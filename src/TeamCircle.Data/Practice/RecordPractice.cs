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
    /// <param name="UnderHold">Why it is entered though a hold lay on it: it did take place. Null: nobody knew of one.</param>
    public sealed record Input(PracticeRecord Record, int? SkewMs = null, Guid? Device = null, int? Provider = null, string? UnderHold = null);

    /// <summary>The field of a problem that means: a hold lay on it, and whoever may end that hold may enter it all the same.</summary>
    public const string HoldField = "Hold";

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
        Problem[] problems = [.. PracticeRules.Check(record, steps), .. Clock(row), .. await VisitAsync(db, row, stop)];
        problems = [.. problems, .. record.IsSecond
            ? await SecondObservers.NameAsync(db, row, record, stop)
            : [.. await MayBePractisedAsync(db, row, card, version, stop), .. await HeldAsync(db, caller, input, row, card, version, stop)]];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        if (!record.IsSecond)
            await KeepFirstAsync(db, row, version, PracticeFigures.Of(record, steps), steps, stop);
        db.Add(row);
        return Outcome<Saved>.Of(new(row.Id, row.LearnerId, [.. Notices(row)]));
    }

    private static async Task KeepFirstAsync(
        PortalDb db, PracticeRow row, RoutineVersionRow version, PracticeFigures figures, IReadOnlyList<AgreedStep> steps, CancellationToken stop)
    {
        await SecondObservers.FindAsync(db, row, stop);
        await SeeCautions.KeepAsync(db, row.ProviderId, version, stop); // the sheet and the card show them before anybody begins
        db.AddRange(figures.Trials.Select(t => TrialOf(row, t, steps.First(s => s.Key == t.Trial.Step).Goals)));
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

    /// <summary>The visit that it names is this learner's.</summary>
    private static async Task<IReadOnlyList<Problem>> VisitAsync(PortalDb db, PracticeRow row, CancellationToken stop) =>
        row.VisitId is { } visit && !await db.Visits.AnyAsync(v => v.AgencyId == row.AgencyId && v.LearnerId == row.LearnerId && v.Id == visit, stop)
            ? [new("Visit", "The visit that it names is not one of this learner's.")]
            : [];

    /// <summary>A routine with positioning or physical assistance is practised only while a review holds.</summary>
    private static async Task<IReadOnlyList<Problem>> MayBePractisedAsync(
        PortalDb db, PracticeRow row, RoutineContent card, RoutineVersionRow version, CancellationToken stop)
    {
        if (!ReviewRules.IsNeeded(card))
            return [];
        var months = await db.Agencies.Where(a => a.Id == row.AgencyId).Select(a => a.ReviewMonths).SingleAsync(stop);
        var reviews = await CardFacts.ReviewsAsync(db, row.AgencyId, [row.RoutineId], stop);
        var standing = ReviewRules.Standing(card, version.Number, reviews.Select(r => r.Given), months, row.OnDay);
        return standing.State == ReviewState.Missing
            ? [new("Version", "The routine has positioning or physical assistance in it, and no review of it held on that day.")]
            : [];
    }

    /// <summary>Nothing is practised that was on hold when the practice began, whoever had heard of it; a step that was left out is none of it. Where
    /// it was practised all the same, whoever may end the hold enters it with a word, and the hold stands beside it.</summary>
    private static async Task<IReadOnlyList<Problem>> HeldAsync(
        PortalDb db, Caller caller, Input input, PracticeRow row, RoutineContent card, RoutineVersionRow version, CancellationToken stop)
    {
        var record = input.Record;
        var holds = (await HoldFacts.StoppedAtAsync(db, version, card, (row.StartedAt, row.VisitId), stop)).Where(h => h.StepKey is not { } step
            || record.Trials.Any(t => t.Step == step) || record.Steps.Any(s => s.Step == step && s.Done != HowDone.Skipped)).ToList();
        if (holds.Count == 0 || string.IsNullOrWhiteSpace(input.UnderHold))
            return [.. holds.Select(h => new Problem(HoldField, $"There was a hold on {(h.ServiceId is not null ? "the service at whose visit it was practised" : h.StepKey is null ? "it" : "one of its steps")}: {h.Reason}"))];
        var owners = new HoldOwners(db, caller, row.LearnerId);
        foreach (var hold in holds)
        {
            if (await owners.EndingAsync(hold.Place, stop) == HoldEnding.No)
                return [new(HoldField, "The case manager enters it, or the discipline that owns what the hold lay on.")];
        }
        (row.UnderHolds, row.UnderHoldsWord) = ([.. holds.Select(h => h.Id)], input.UnderHold.Trim());
        return [];
    }

    private static IEnumerable<string> Notices(PracticeRow row)
    {
        if (row.SkewMs is { } ms && Math.Abs((long)ms) > ShownSkew.TotalMilliseconds)
            yield return string.Create(CultureInfo.InvariantCulture,
                $"The device's clock was {Math.Abs(ms) / 60_000} minutes {(ms > 0 ? "ahead" : "behind")}; day and times were put right.");
    }
}
