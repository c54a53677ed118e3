using Npgsql;
using NpgsqlTypes;
using TeamCircle.Core.Sessions;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Seed;

/// <summary>Writes a batch by COPY, table by table.</summary>
internal sealed class WriteBatch(NpgsqlConnection connection, int agency, int terminal, LoadBatch batch)
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb[LoadShape.Zone];

    public void Run()
    {
        WriteVisits();
        WriteSessions();
        WriteProbes();
        WriteDecisions();
        WriteGoals();
    }

    private void WriteVisits() => Copy(
        "visits", "agency_id, id, learner_id, service_id, provider_id, on_day, start_time, minutes, zone, during, state, live, takes_time, learners_time, pays_on, place, format",
        batch.Visits, (row, visit) =>
        {
            var (from, to) = WallTime.Span(visit.OnDay.At(visit.Start), visit.Minutes, Zone);
            Head(row, visit.Id, visit.Learner);
            row.Write(visit.Service);
            row.Write(visit.Provider);
            row.Write(visit.OnDay);
            row.Write(visit.Start);
            row.Write(visit.Minutes);
            row.Write(LoadShape.Zone);
            row.Write(new NpgsqlRange<Instant>(from, true, to, false), NpgsqlDbType.TimestampTzRange);
            row.Write(visit.Outcome is null ? "Planned" : "Logged");
            row.Write(true);
            row.Write(visit.Outcome != VisitOutcome.NotOffered);
            row.Write(true);
            Write(row, visit.PaysOn);
            row.Write("Home");
            row.Write("Individual");
        });

    private void WriteSessions() => Copy(
        "sessions", "agency_id, id, learner_id, service_id, visit_id, provider_id, on_day, pays_on, outcome, start_time, end_time, not_counted, credited, observed, reason, place, format, live, origin, recorded_by",
        batch.Visits.Where(v => v.Outcome is not null), (row, visit) =>
        {
            Head(row, visit.Id, visit.Learner);
            row.Write(visit.Service);
            row.Write(visit.Id);
            row.Write(visit.Provider);
            row.Write(visit.OnDay);
            Write(row, visit.PaysOn);
            row.Write(visit.Outcome.ToString()!);
            row.Write(visit.Start);
            row.Write(visit.Start.PlusMinutes(visit.Minutes));
            row.Write(0);
            row.Write(visit.Outcome == VisitOutcome.Given ? visit.Minutes : 0);
            row.Write(true);
            if (visit.Reason is { } reason)
                row.Write(reason.ToString());
            else
                row.WriteNull();
            row.Write("Home");
            row.Write("Individual");
            row.Write(true);
            row.Write("File");
            row.Write(terminal);
        });

    private void WriteProbes() => Copy(
        "probes", "agency_id, id, learner_id, goal_id, provider_id, on_day, value, kind, live, recorded_by", batch.Probes, (row, probe) =>
        {
            Head(row, probe.Id, probe.Learner);
            row.Write(probe.Goal);
            row.Write(probe.Provider);
            row.Write(probe.OnDay);
            row.Write((decimal)probe.Value);
            row.Write("Probe");
            row.Write(true);
            row.Write(terminal);
        });

    private void WriteDecisions() => Copy(
        "decisions", "agency_id, learner_id, service_id, on_day, amount, kind, decided_on, decided_by, live, recorded_by", batch.Decisions, (row, decided) =>
        {
            row.Write(agency);
            row.Write(decided.Learner);
            row.Write(decided.Service);
            row.Write(decided.OnDay);
            row.Write(30);
            row.Write(decided.Kind.ToString());
            row.Write(decided.OnDay);
            row.Write(new[] { decided.By });
            row.Write(true);
            row.Write(terminal);
        });

    private void WriteGoals() => Copy(
        "visit_goals", "agency_id, visit_id, learner_id, goal_id", batch.Visits.Where(v => v.NamesGoal is not null), (row, visit) =>
        {
            Head(row, visit.Id, visit.Learner);
            row.Write(visit.NamesGoal!.Value);
        });

    /// <summary>By way of a table of the transaction's own: PostgreSQL takes no COPY straight into a table with row-level security.</summary>
    private void Copy<T>(string table, string columns, IEnumerable<T> items, Action<NpgsqlBinaryImporter, T> write)
    {
        Execute($"create temp table load_rows on commit drop as select {columns} from portal.{table} with no data");
        using (var rows = connection.BeginBinaryImport("copy load_rows from stdin (format binary)"))
        {
            foreach (var item in items)
            {
                rows.StartRow();
                write(rows, item);
            }
            rows.Complete();
        }
        Execute($"insert into portal.{table} ({columns}) select {columns} from load_rows");
        Execute("drop table load_rows");
    }

    private void Execute(string sql)
    {
        using var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 0 };
        command.ExecuteNonQuery();
    }

    private void Head(NpgsqlBinaryImporter row, Guid id, int learner)
    {
        row.Write(agency);
        row.Write(id);
        row.Write(learner);
    }

    private static void Write(NpgsqlBinaryImporter row, LocalDate? day)
    {
        if (day is { } known)
            row.Write(known);
        else
            row.WriteNull();
    }
}
