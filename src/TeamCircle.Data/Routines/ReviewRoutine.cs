using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>A licensed member of the team says today that they have reviewed the newest version of a routine's card.</summary>
public sealed class ReviewRoutine(Portal portal)
{
    public sealed record Input
    {
        public int Routine { get; init; }

        /// <summary>The version that was read.</summary>
        public int Version { get; init; }

        /// <summary>As which of one's disciplines.</summary>
        [EnumDataType(typeof(Discipline))]
        public Discipline? As { get; init; }

        [StringLength(500, ErrorMessage = "Keep the note under 500 letters.")]
        public string? Note { get; init; }
    }

    public sealed record Saved(int Review);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteRoutineAsync(caller, input.Routine, Operation.Of(operation, nameof(ReviewRoutine), input), (db, row) => WorkAsync(db, caller, row, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, RoutineRow routine, Input input, CancellationToken stop)
    {
        var licensed = await LicensedAsync(db, caller, stop);
        if (licensed.Count == 0)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (!routine.Live)
            return Outcome<Saved>.Refused(RoutineDoor.Ended);
        var newest = await db.RoutineVersions.Where(v => v.AgencyId == routine.AgencyId && v.RoutineId == routine.Id)
            .OrderByDescending(v => v.Number).Select(v => (int?)v.Id).FirstOrDefaultAsync(stop);
        if (newest != input.Version)
            return Outcome<Saved>.Refused("", "A newer version was saved meanwhile. Read it before you review it.");
        if (input.As is not { } discipline || !licensed.Contains(discipline))
            return Outcome<Saved>.Refused(nameof(input.As), "Say as which discipline you reviewed it.");
        var review = new RoutineReviewRow
        {
            AgencyId = routine.AgencyId,
            LearnerId = routine.LearnerId,
            VersionId = input.Version,
            PersonId = caller.PersonId,
            Discipline = discipline,
            ReviewedOn = caller.Today,
            Note = string.IsNullOrWhiteSpace(input.Note) ? null : input.Note.Trim(),
        };
        db.Add(review);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(review.Id));
    }

    /// <summary>The caller's own disciplines that need a licence; empty: they review nothing.</summary>
    internal static async Task<IReadOnlyList<Discipline>> LicensedAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        [.. (await db.PersonDisciplines.Where(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId).Select(d => d.Discipline).ToListAsync(stop))
            .Where(ReviewRules.IsLicensed).Distinct().Order()];
}
