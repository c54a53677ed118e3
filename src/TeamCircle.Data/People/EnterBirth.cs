using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Learners;

namespace TeamCircle.Data.People;

/// <summary>Enters a learner's day of birth, and when the learner and the parents were told that rights pass. Only the case manager reads it again.</summary>
public sealed class EnterBirth(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        /// <summary>0 where nothing was entered yet.</summary>
        public int Version { get; init; }
        public LocalDate? BornOn { get; init; }
        public LocalDate? ToldOn { get; init; }
        public string? ToldWords { get; init; }
    }

    public sealed record Saved(int Learner);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WritePlanAsync(
        caller, input.Learner, Operation.Of(operation, nameof(EnterBirth), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        Problem[] problems = [.. ComingOfAge.Check(input.BornOn, input.ToldOn, input.ToldWords, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = await db.Births.SingleOrDefaultAsync(b => b.AgencyId == caller.AgencyId && b.LearnerId == input.Learner, stop);
        if (row is null)
            db.Add(row = new BirthRow { AgencyId = caller.AgencyId, LearnerId = input.Learner });
        else
            db.Touch(row, input.Version);
        (row.BornOn, row.ToldOn, row.EnteredBy) = (input.BornOn!.Value, input.ToldOn, caller.PersonId);
        row.ToldWords = string.IsNullOrWhiteSpace(input.ToldWords) ? null : input.ToldWords.Trim();
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
