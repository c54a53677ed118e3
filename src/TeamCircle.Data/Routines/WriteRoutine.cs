using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Writes a new version of a routine's card. Earlier ones stay as they are.</summary>
public sealed class WriteRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }

        /// <summary>The number of the newest version when the form was opened; 0 where there was none.</summary>
        public int Number { get; init; }
        public CardInput Card { get; init; } = new();
    }

    public sealed record Saved(int Version, int Number);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(WriteRoutine), input), (db, row) => WorkAsync(db, caller, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, RoutineRow routine, Input input, CancellationToken stop)
    {
        if (!routine.Live)
            return Outcome<Saved>.Refused(RoutineDoor.Ended);
        var earlier = await db.RoutineVersions.Where(v => v.AgencyId == routine.AgencyId && v.RoutineId == routine.Id)
            .OrderBy(v => v.Number).Select(v => RoutineContent.Read(v.Content)).ToListAsync(stop);
        if (earlier.Count != input.Number)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        var goals = await db.Goals.Where(g => g.AgencyId == routine.AgencyId && g.LearnerId == routine.LearnerId).Select(g => g.Id).ToListAsync(stop);
        var written = input.Card.ToContent();
        Problem[] problems = [.. CardRules.Check(written, goals.ToHashSet()).Select(input.Card.InForm)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var card = CardKeys.Give(written, earlier);
        var json = card.Write();
        if (earlier.Count > 0 && earlier[^1].Write() == json)
            return Outcome<Saved>.Refused("", "Nothing was changed, so there is no new version.");
        var version = new RoutineVersionRow
        {
            AgencyId = routine.AgencyId,
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            Number = earlier.Count + 1,
            Content = json,
            WrittenBy = caller.PersonId,
        };
        db.Add(version);
        (routine.ObjectCue, routine.Place) = (card.Cue, card.Place);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(version.Id, version.Number));
    }
}
