using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Says that the caller has seen the cautions of a version in full; until they change they stand in one line for them.</summary>
public sealed class SeeCautions(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }

        /// <summary>The id of the version whose cautions were shown.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int Routine);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(SeeCautions), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var version = await db.RoutineVersions.SingleOrDefaultAsync(v => v.AgencyId == caller.AgencyId && v.RoutineId == input.Routine && v.Id == input.Version, stop);
        if (version is null || !caller.IsStaff || !caller.OnTeam(version.LearnerId))
            return Outcome<Saved>.Refused(Problem.NotFound);
        await KeepAsync(db, caller.PersonId, version, stop);
        return Outcome<Saved>.Of(new(input.Routine));
    }

    /// <summary>Keeps that a person has seen a version's cautions; nothing where there are none, or where it is kept already.</summary>
    internal static async Task KeepAsync(PortalDb db, int person, RoutineVersionRow version, CancellationToken stop)
    {
        if (CautionMarks.Of(RoutineContent.Read(version.Content)) is { } mark)
            await db.Database.ExecuteSqlAsync(
                $"""
                insert into portal.cautions_seen (agency_id, learner_id, person_id, routine_id, mark)
                values ({version.AgencyId}, {version.LearnerId}, {person}, {version.RoutineId}, {mark}) on conflict do nothing
                """, stop);
    }

    /// <summary>The marks of what a person has seen, by routine.</summary>
    internal static async Task<ILookup<int, string>> SeenAsync(PortalDb db, int agency, int person, IReadOnlyCollection<int> routines, CancellationToken stop) =>
        (await db.CautionsSeen.Where(s => s.AgencyId == agency && s.PersonId == person && routines.Contains(s.RoutineId)).Select(s => new { s.RoutineId, s.Mark }).ToListAsync(stop))
        .ToLookup(s => s.RoutineId, s => s.Mark);
}
