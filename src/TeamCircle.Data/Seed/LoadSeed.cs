using System.Data;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace TeamCircle.Data.Seed;

/// <summary>Fills an agency of its own with made-up rows, for measuring: the same rows from the same seed.</summary>
/// <remarks>Five services and two goals a learner over one school year, about 255 visits each; seen on <see cref="AsOf"/>, in the
/// third of four reporting periods. All names are numbers. One transaction, by COPY, under the walls like any other write.</remarks>
public sealed class LoadSeed(Portal portal)
{
    private const int LearnersABatch = 250;

    /// <summary>The day on which the rows are seen: earlier visits are logged, later ones planned.</summary>
    public static readonly LocalDate AsOf = new(2027, 2, 26);

    /// <summary>The period that the as-of day lies in.</summary>
    public const string Period = "Period 3";

    /// <summary>How many rows were made.</summary>
    public sealed record Made(int Agency, int Learners, int Services, long Visits, long Sessions, long Probes, long Decisions);

    /// <param name="code">The agency's code; there must be none of that code yet.</param>
    /// <param name="note">Told from time to time how many learners are done.</param>
    /// <exception cref="PostgresException">There is an agency of that code.</exception>
    public async Task<Made> RunAsync(string code, int learners, int seed, Action<int> note, CancellationToken stop = default)
    {
        var scope = new Scope(Wall.Agency, 0, 0, [], true, "rows for measuring");
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, null, stop);
        work.Db.Database.SetCommandTimeout(TimeSpan.FromHours(1));
        var agency = await work.Db.Database.SqlQuery<int>(
            $"select portal.make_agency({code}, {code}, {LoadShape.Zone}) as \"Value\"").SingleAsync(stop);
        var terminal = await EnterAsync(work.Db, agency, stop);
        foreach (var statement in LoadPlan.Statements(agency, learners))
            await work.Db.Database.ExecuteSqlRawAsync(statement, stop);
        var made = new Made(agency, learners, learners * LoadShape.Services, 0, 0, 0, 0);
        for (var first = 0; first < learners; first += LearnersABatch)
        {
            var batch = LoadBatch.Of(seed, first, Math.Min(LearnersABatch, learners - first));
            var write = new WriteBatch(work.Connection, agency, terminal, batch);
            await Task.Run(write.Run, stop);
            made = made with
            {
                Visits = made.Visits + batch.Visits.Count,
                Sessions = made.Sessions + batch.Visits.Count(v => v.Outcome is not null),
                Probes = made.Probes + batch.Probes.Count,
                Decisions = made.Decisions + batch.Decisions.Count,
            };
            note(first + LearnersABatch);
        }
        await work.CommitAsync(stop);
        return made;
    }

    /// <summary>Works on in the new agency, as its terminal person; no change rows, since there is nothing to trace.</summary>
    private static async Task<int> EnterAsync(PortalDb db, int agency, CancellationToken stop)
    {
        await db.Database.ExecuteSqlRawAsync("select set_config('app.agency', {0}, true), set_config('app.import', 'load', true)", [$"{agency}"], stop);
        var terminal = await db.People.Where(p => p.AgencyId == agency).Select(p => p.Id).SingleAsync(stop);
        await db.Database.ExecuteSqlRawAsync("select set_config('app.person', {0}, true)", [$"{terminal}"], stop);
        return terminal;
    }
}
