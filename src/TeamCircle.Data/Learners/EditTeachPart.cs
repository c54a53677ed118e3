using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Learners;

/// <summary>Writes one part of "How we teach": the discipline that owns it, or the case manager where none does.</summary>
public sealed class EditTeachPart(Portal portal)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Write what everybody on the team should do. To leave a part out, say so in a word.")]
        [StringLength(8000, ErrorMessage = "Keep it under 8,000 characters: what nobody reads helps nobody.")]
        public string Text { get; init; } = "";

        /// <summary>The version that was open while it was typed; 0 where there was none.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int LearnerId, TeachPart Part);

    /// <summary>A part as it stands now.</summary>
    /// <param name="Text">Empty, with version 0, where nobody has written it yet.</param>
    /// <param name="WrittenBy">The name of who wrote it; null where nobody has.</param>
    public sealed record Current(TeachPart Part, Discipline? Owner, string Text, int Version, LocalDate? WrittenOn, string? WrittenBy);

    /// <summary>Null where the caller may not write this part, or there is no such learner.</summary>
    public Task<Current?> StartAsync(Caller caller, int learner, TeachPart part, CancellationToken stop = default) =>
        portal.ReadAsync(Scope.OfLearner(caller, learner), db => FindAsync(db, caller, learner, part, stop), stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operationId, int learner, TeachPart part, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(
            Scope.OfLearner(caller, learner),
            Operation.Of(operationId, nameof(EditTeachPart), new { learner, part, input }),
            db => SaveAsync(db, caller, learner, part, input, stop), stop);

    private static async Task<Outcome<Saved>> SaveAsync(
        PortalDb db, Caller caller, int learner, TeachPart part, Input input, CancellationToken stop)
    {
        if (await FindAsync(db, caller, learner, part, stop) is not { } current)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var row = await db.TeachParts.SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.LearnerId == learner && p.Part == part, stop);
        if (row is null && input.Version != 0)
            return Outcome<Saved>.Refused(Refusals.ChangedMeanwhile);
        if (row is null)
            db.Add(row = new TeachPartRow { AgencyId = caller.AgencyId, LearnerId = learner, Part = part, Owner = current.Owner, Text = "" });
        else
            db.Entry(row).Property(r => r.Version).OriginalValue = input.Version;
        row.Text = input.Text.Trim();
        row.WrittenOn = caller.Today;
        row.WrittenBy = caller.PersonId;
        return Outcome<Saved>.Of(new Saved(learner, part));
    }

    private static async Task<Current?> FindAsync(PortalDb db, Caller caller, int learner, TeachPart part, CancellationToken stop)
    {
        if (!(caller.IsStaff && (caller.Stands(learner, Relation.Team) || caller.Manages(learner))) || !await db.Learners.AnyAsync(l => l.AgencyId == caller.AgencyId && l.Id == learner, stop))
            return null;
        var row = await (
            from p in db.TeachParts
            join who in db.People on new { p.AgencyId, Id = p.WrittenBy } equals new { who.AgencyId, who.Id }
            where p.AgencyId == caller.AgencyId && p.LearnerId == learner && p.Part == part
            select new { p.Owner, p.Text, p.Version, p.WrittenOn, who.Name }).SingleOrDefaultAsync(stop);
        var qualified = await db.PersonDisciplines.Where(d => d.AgencyId == caller.AgencyId && d.PersonId == caller.PersonId)
            .Select(d => d.Discipline).ToListAsync(stop);
        var current = row is null
            ? new Current(part, HowWeTeach.UsualOwner(part), "", 0, null, null)
            : new Current(part, row.Owner, row.Text, row.Version, row.WrittenOn, row.Name);
        return HowWeTeach.MayWrite(current.Owner, qualified.ToHashSet(), caller.Manages(learner)) ? current : null;
    }
}
