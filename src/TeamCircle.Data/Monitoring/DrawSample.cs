using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Monitoring;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Monitoring;

/// <summary>Draws a sample of the files that had a service in a reporting period. The same seed gives the same files while the population is the same.</summary>
public sealed class DrawSample(Portal portal)
{
    public const int MostFiles = 200;

    public sealed record Input
    {
        public int? Period { get; init; }

        /// <summary>Null: a service of any kind.</summary>
        public Discipline? Discipline { get; init; }

        /// <summary>How many files.</summary>
        public int? Size { get; init; }
        public long? Seed { get; init; }
    }

    public sealed record Saved(int Sample);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator) || caller.Is(Role.Director)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "monitoring"), Operation.Of(operation, nameof(DrawSample), input), db => DrawAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> DrawAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var period = await db.Periods.SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Period, stop);
        Problem[] problems =
        [
            .. period is null ? [new Problem("Period", "Choose a reporting period.")] : Array.Empty<Problem>(),
            .. input.Size is not (>= 1 and <= MostFiles) ? [new Problem("Size", $"Give how many files, from 1 to {MostFiles}.")] : Array.Empty<Problem>(),
            .. input.Seed is null ? [new Problem("Seed", "Give a whole number: with it anybody can draw the same files again.")] : Array.Empty<Problem>(),
        ];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var population = await db.Services.Where(s => s.AgencyId == caller.AgencyId && s.FromDay <= period!.EndDay && s.ToDay >= period.StartDay
            && (input.Discipline == null || s.Discipline == input.Discipline)).Select(s => s.LearnerId).Distinct().Order().ToListAsync(stop);
        if (population.Count == 0)
            return Outcome<Saved>.Refused("Discipline", "No file had such a service in that period.");
        var sample = new SampleRow { AgencyId = caller.AgencyId, PeriodId = period!.Id, Discipline = input.Discipline, Seed = input.Seed!.Value, Population = population.Count, DrawnBy = caller.PersonId };
        db.Add(sample);
        await db.SaveChangesAsync(stop);
        db.AddRange(SampleDraw.Of(population, input.Size!.Value, sample.Seed).Select((learner, i) =>
            new SampleFileRow { AgencyId = caller.AgencyId, SampleId = sample.Id, LearnerId = learner, Position = i + 1 }));
        return Outcome<Saved>.Of(new(sample.Id));
    }
}
