using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.History;
using TeamCircle.Data.Quiet;
using TeamCircle.Data.Routines;

namespace TeamCircle.Data.Devices;

/// <summary>What a device hears of holds at a contact.</summary>
/// <param name="ContactHours">After so many hours without a contact it says that it may not have heard of one.</param>
/// <param name="Quiet">Learners who are quiet: the device lets go at once of what it keeps of them.</param>
public sealed record HeardHolds(int ContactHours, IReadOnlyList<HeardHold> Holds, IReadOnlyList<int> Quiet);

/// <param name="Routine">Null: every routine of the learner. A hold on a part that stops only some stands here once for each of them.</param>
/// <param name="Step">The key of one step; null: the whole routine.</param>
/// <param name="Services">At the visits of these nothing is practised; null where it lies on no service.</param>
/// <param name="ToldBy">Who said so, with what they are.</param>
public sealed record HeardHold(int Id, int Learner, int? Routine, string? Step, TeachPart? Part, IReadOnlyList<int>? Services, string Reason, string ToldBy, Instant Since);

/// <summary>Reads the holds of the learners on whose teams the caller is, by short codes; leaves a record of access where there are any.</summary>
public sealed class ReadHeardHolds(Portal portal)
{
    /// <param name="state">Only an active device is told of holds.</param>
    public async Task<HeardHolds> RunAsync(Caller caller, DeviceState state, CancellationToken stop = default)
    {
        var scope = Scope.Of(caller);
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, stop: stop);
        var (db, agency) = (work.Db, caller.AgencyId);
        var hours = await db.Agencies.Where(a => a.Id == agency).Select(a => a.HoldContactHours).SingleAsync(stop);
        if (state != DeviceState.Active)
            return new(hours, [], []);
        int[] quiet = [.. (await QuietLearners.ReadAsync(db, agency, stop)).Order()];
        caller = await QuietLearners.LeaveOutAsync(db, caller, stop);
        if (await HoldFacts.ReadAsync(db, agency, [.. caller.Learners.Where(caller.OnTeam)], ended: false, stop) is not { Count: > 0 } holds)
            return new(hours, [], quiet);
        int[] ids = [.. holds.Select(h => h.Key)];
        var codes = await db.Learners.Where(l => l.AgencyId == agency && ids.Contains(l.Id)).ToDictionaryAsync(l => l.Id, l => new ShortCode(l.Name, l.Code), stop);
        var set = await db.Holds.Where(h => h.AgencyId == agency && ids.Contains(h.LearnerId) && h.EndedAt == null).ToDictionaryAsync(h => h.Id, h => h.SetAt, stop);
        db.Accesses.Add(new AccessRow { AgencyId = agency, PersonId = caller.PersonId, Address = caller.Address, Ground = "own learners, on a device", Page = "GET /device/contact", LearnerIds = ids });
        await db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
        return new(hours, [.. holds.SelectMany(learner => learner.SelectMany(hold => Heard(hold, learner.Key, codes[learner.Key], set[hold.Id])))], quiet);
    }

    private static IEnumerable<HeardHold> Heard(HoldShown hold, int learner, ShortCode code, Instant since)
    {
        var told = hold.ToldAs == HoldWord.Own ? hold.SetBy : $"{code.In(hold.ToldBy ?? "")} ({Words.Of(hold.ToldAs)})";
        var heard = new HeardHold(hold.Id, learner, hold.Place.Routine, hold.Place.Step, hold.Place.Part, hold.Place.Service is null ? null : [.. hold.Services.Order()], code.In(hold.Reason), told, since);
        return hold.Place.Part is { } part && !HoldRules.StopsAll(part) ? hold.Stops.Keys.Order().Select(routine => heard with { Routine = routine }) : [heard];
    }
}
