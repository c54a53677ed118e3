using System.Globalization;
using System.Text.Json;
using Npgsql;
using TeamCircle.Data.Import;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Data.Seed;

/// <summary>Fills an agency of its own with a made-up school year, for measuring: the same rows from the same seed.</summary>
/// <remarks>
/// <para>Five services, two goals and a routine a learner, about 255 visits each. All names are numbers.</para>
/// <para>One transaction of the owner, by COPY. Foreign keys, exclusions and indexes of the tables with many rows are made anew at the end, over
/// all rows: what breaks one takes everything back. Meanwhile nobody else reaches these tables, so it is for a database that nobody
/// works with, and it refuses one with real learners. One import stands for all rows in the trail, with their hash.</para>
/// </remarks>
public static class LoadSeed
{
    private const int LearnersABatch = 250;

    // The guards of closed counts compare each row with every count, which takes minutes for 50,000 services: a new agency has none that is closed.
    private static readonly string[] Tables = [.. LoadPlan.Tables, .. WriteBatch.Tables];

    /// <summary>The day on which the rows are seen unless another is named, in the third of four reporting periods.</summary>
    public static readonly LocalDate AsOf = new(2027, 2, 26);

    /// <summary>The period that <see cref="AsOf"/> lies in.</summary>
    public const string Period = "Period 3";

    /// <summary>People of the made-up agency who are worth a sign-in: a director, and a case manager, a provider and the family of its first learner.</summary>
    public static readonly IReadOnlyList<string> SignIns = [LoadShape.Director, LoadShape.Manager0, LoadShape.Provider0, LoadShape.Family];

    /// <param name="Code">The code of the new agency.</param>
    public sealed record Input(string Code, int Learners, int Seed)
    {
        /// <summary>Earlier visits are logged, later ones planned.</summary>
        public LocalDate AsOf { get; init; } = LoadSeed.AsOf;
    }

    /// <summary>How many rows were made.</summary>
    /// <param name="Hash">SHA-256 over the values of all rows that were copied: the same from the same seed.</param>
    public sealed record Made(int Agency, int Services, string Hash)
    {
        public long Visits { get; init; }
        public long Sessions { get; init; }
        public long Probes { get; init; }
        public long Decisions { get; init; }
        public long Practices { get; init; }
        public long Trials { get; init; }

        internal Made Plus(LoadBatch batch) => this with
        {
            Visits = Visits + batch.Visits.Count,
            Sessions = Sessions + batch.Sessions.Count,
            Probes = Probes + batch.Probes.Count,
            Decisions = Decisions + batch.Decisions.Count,
            Practices = Practices + batch.Practices.Count,
            Trials = Trials + batch.Trials.Count,
        };
    }

    /// <param name="owner">Signs in as a role that may act as the owner.</param>
    /// <param name="say">Told from time to time how far it is.</param>
    /// <exception cref="StartupFailure">There is an agency of that code, or the database holds learners who were not made up.</exception>
    public static async Task<Made> RunAsync(string owner, Input input, Action<string> say, CancellationToken stop = default)
    {
        await using var database = await OwnerDatabase.OpenAsOwnerAsync(owner, stop);
        await using var transaction = await database.BeginTransactionAsync(stop);
        await RefuseAsync(database, input.Code, stop);
        var (agency, terminal) = await EnterAsync(database, input.Code, stop);
        List<TableShape> tables = [.. (await BackupTables.ReadAsync(database, stop)).Where(t => Tables.Contains(t.Name["portal.".Length..]))];
        var walls = await TableWalls.LowerAsync(database, tables, stop);
        var checks = await TableChecks.LiftAsync(database, tables, stop);
        foreach (var statement in LoadPlan.Statements(agency, input.Learners))
            await ExecuteAsync(database, statement, stop);
        var made = await Task.Run(() => CopyAsync(database, input, agency, terminal, say), stop);
        await checks.MakeAsync(database, (done, of) => say($"{done} of {of} indexes and checks"), stop);
        await walls.RaiseAsync(database, stop);
        await RecordAsync(database, input, made, terminal, stop);
        await transaction.CommitAsync(stop);
        say("Counting rows for the planner");
        await ExecuteAsync(database, "vacuum (analyze)", stop);
        return made;
    }

    private static async Task RefuseAsync(NpgsqlConnection database, string code, CancellationToken stop)
    {
        await using var question = new NpgsqlCommand(
            $"select portal.agency_id_of($1) is not null, exists (select from portal.learners where id < {LoadShape.FirstId})", database)
        { Parameters = { new() { Value = code } } };
        await using var answer = await question.ExecuteReaderAsync(stop);
        await answer.ReadAsync(stop);
        if (answer.GetBoolean(1))
            throw new StartupFailure("This database holds learners who were not made up: rows for measuring go into a database of their own. Set TEAMCIRCLE_DATA to a new folder.");
        if (answer.GetBoolean(0))
            throw new StartupFailure($"There is an agency {code} already: name another with --agency CODE.");
    }

    /// <summary>Makes the agency and works on in it as its terminal person, as an import does.</summary>
    private static async Task<(int Agency, int Terminal)> EnterAsync(NpgsqlConnection database, string code, CancellationToken stop)
    {
        await using var make = new NpgsqlCommand($"select portal.make_agency($1, $1, '{LoadShape.Zone}')", database) { Parameters = { new() { Value = code } } };
        var agency = (int)(await make.ExecuteScalarAsync(stop))!;
        await using var find = new NpgsqlCommand($"""
            select id, set_config('app.person', id::text, true), set_config('app.agency', '{agency}', true), set_config('app.ground', 'rows for measuring', true),
                   set_config('app.import', 'load', true), set_config('maintenance_work_mem', '512MB', true)
            from portal.people where agency_id = {agency}
            """, database);
        return (agency, (int)(await find.ExecuteScalarAsync(stop))!);
    }

    /// <summary>Copies batch after batch; the next is made while one is written.</summary>
    private static async Task<Made> CopyAsync(NpgsqlConnection database, Input input, int agency, int terminal, Action<string> say)
    {
        using var rows = new HashedRows(database);
        var made = new Made(agency, input.Learners * LoadShape.Services, "");
        var next = MakeAsync(0);
        for (var first = 0; first < input.Learners; first += LearnersABatch)
        {
            var batch = await next;
            next = MakeAsync(first + LearnersABatch);
            new WriteBatch(rows, agency, terminal, batch).Run();
            made = made.Plus(batch);
            say($"{Math.Min(first + LearnersABatch, input.Learners)} of {input.Learners} learners");
        }
        return made with { Hash = rows.Finish() };

        Task<LoadBatch> MakeAsync(int first) =>
            Task.Run(() => LoadBatch.Of(input.Seed, input.AsOf, first, Math.Clamp(input.Learners - first, 0, LearnersABatch)));
    }

    /// <summary>One change row for all: that of an import, with the rows' hash.</summary>
    private static async Task RecordAsync(NpgsqlConnection database, Input input, Made made, int terminal, CancellationToken stop)
    {
        var rows = (int)(made.Visits + made.Sessions + made.Probes + made.Decisions + made.Practices + made.Trials);
        FileCount[] files = [new(string.Create(CultureInfo.InvariantCulture, $"made-up learners 1 to {input.Learners}, seed {input.Seed}"), made.Hash, rows, rows, 0, 0, 0)];
        await ExecuteAsync(database, "select set_config('app.import', '', true)", stop);
        await using var import = new NpgsqlCommand(
            "insert into portal.imports (agency_id, person_id, files, stored, refused) values ($1, $2, $3::jsonb, $4, 0)", database)
        {
            Parameters = { new() { Value = made.Agency }, new() { Value = terminal }, new() { Value = JsonSerializer.Serialize(files, JsonSerializerOptions.Web) }, new() { Value = rows } },
        };
        await import.ExecuteNonQueryAsync(stop);
    }

    private static async Task ExecuteAsync(NpgsqlConnection database, string sql, CancellationToken stop)
    {
        await using var command = new NpgsqlCommand(sql, database) { CommandTimeout = 0 };
        await command.ExecuteNonQueryAsync(stop);
    }
}
