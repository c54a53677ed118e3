using NpgsqlTypes;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Seed;

/// <summary>Writes a batch table by table.</summary>
/// <param name="terminal">Who recorded it.</param>
internal sealed class WriteBatch(HashedRows rows, int agency, int terminal, LoadBatch batch)
{
    /// <summary>The tables that it writes.</summary>
    public static readonly string[] Tables =
        ["visits", "sessions", "probes", "decisions", "visit_goals", "routines", "routine_versions", "practices", "trials"];

    public void Run()
    {
        WriteVisits();
        WriteSessions();
        WriteProbes();
        WriteDecisions();
        WriteGoals();
        WriteCards();
        WritePractices();
        WriteTrials();
    }

    private void WriteVisits() => rows.Copy(
        "visits", "agency_id, id, learner_id, service_id, provider_id, on_day, start_time, minutes, zone, during, state, live, takes_time, learners_time, pays_on, place, format",
        batch.Visits, visit =>
        {
            Head(visit.Id, visit.Learner);
            rows.Write(visit.Service);
            rows.Write(visit.Provider);
            rows.Write(visit.OnDay);
            rows.Write(visit.Start);
            rows.Write(visit.Minutes);
            rows.Write(LoadShape.Zone);
            rows.Write(visit.Span.Start, visit.Span.End);
            rows.Write(visit.Outcome is null ? "Planned" : "Logged");
            rows.Write(true);
            rows.Write(visit.Outcome != VisitOutcome.NotOffered);
            rows.Write(true);
            rows.Write(visit.PaysOn);
            rows.Write("Home");
            rows.Write("Individual");
        });

    private void WriteSessions() => rows.Copy(
        "sessions", "agency_id, id, learner_id, service_id, visit_id, provider_id, on_day, pays_on, outcome, start_time, end_time, not_counted, credited, observed, reason, place, format, live, replaces, correction_reason, origin, recorded_by",
        batch.Sessions, session =>
        {
            var visit = session.Visit;
            Head(session.Id, visit.Learner);
            rows.Write(visit.Service);
            rows.Write(visit.Id);
            rows.Write(visit.Provider);
            rows.Write(visit.OnDay);
            rows.Write(visit.PaysOn);
            rows.Write(visit.Outcome.ToString());
            rows.Write(visit.Start);
            rows.Write(visit.Start.PlusMinutes(session.Minutes));
            rows.Write(0);
            rows.Write(visit.Outcome == VisitOutcome.Given ? session.Minutes : 0);
            rows.Write(true);
            rows.Write(visit.Reason?.ToString());
            rows.Write("Home");
            rows.Write("Individual");
            rows.Write(session.Live);
            rows.Write(session.Replaces);
            rows.Write(session.Replaces is null ? null : "Ended earlier.");
            rows.Write("File");
            rows.Unhashed(terminal);
        });

    private void WriteProbes() => rows.Copy(
        "probes", "agency_id, id, learner_id, goal_id, provider_id, on_day, value, kind, live, recorded_by", batch.Probes, probe =>
        {
            Head(probe.Id, probe.Learner);
            rows.Write(probe.Goal);
            rows.Write(probe.Provider);
            rows.Write(probe.OnDay);
            rows.WriteNumeric(probe.Value);
            rows.Write("Probe");
            rows.Write(true);
            rows.Unhashed(terminal);
        });

    private void WriteDecisions() => rows.Copy(
        "decisions", "agency_id, learner_id, service_id, on_day, amount, kind, decided_on, decided_by, live, recorded_by", batch.Decisions, decided =>
        {
            rows.Unhashed(agency);
            rows.Write(decided.Learner);
            rows.Write(decided.Service);
            rows.Write(decided.OnDay);
            rows.Write(30);
            rows.Write(decided.Kind.ToString());
            rows.Write(decided.OnDay);
            rows.Write([decided.By]);
            rows.Write(true);
            rows.Unhashed(terminal);
        });

    private void WriteGoals() => rows.Copy(
        "visit_goals", "agency_id, visit_id, learner_id, goal_id", batch.Visits.Where(v => v.NamesGoal is not null), visit =>
        {
            Head(visit.Id, visit.Learner);
            rows.Write(visit.NamesGoal);
        });

    private void WriteCards()
    {
        rows.Copy("routines", "agency_id, id, learner_id, name, object_cue, place, live", batch.Cards, card =>
        {
            Head(card.Routine, card.Learner);
            rows.Write("Reaching");
            rows.Write(card.Content.Cue);
            rows.Write("Home");
            rows.Write(true);
        });
        rows.Copy("routine_versions", "agency_id, id, learner_id, routine_id, number, content, written_by", batch.Cards, card =>
        {
            Head(card.Routine, card.Learner);
            rows.Write(card.Routine);
            rows.Write(1);
            rows.Write(card.Content.Write(), NpgsqlDbType.Jsonb);
            rows.Write(card.By);
        });
    }

    private void WritePractices() => rows.Copy(
        "practices", "agency_id, id, learner_id, routine_id, version_id, visit_id, provider_id, entry, started_at, ended_at, on_day, record, live, recorded_by",
        batch.Practices, practice =>
        {
            var (record, visit) = (practice.Record, practice.At);
            Head(record.Id, visit.Learner);
            rows.Write(record.Routine);
            rows.Write(record.Version);
            rows.Write(visit.Id);
            rows.Write(visit.Provider);
            rows.Write(record.Entry.ToString());
            rows.Write(record.StartedAt);
            rows.Write(record.EndedAt);
            rows.Write(visit.OnDay);
            rows.Write(PracticeJson.Write(record), NpgsqlDbType.Jsonb);
            rows.Write(true);
            rows.Write(visit.Provider);
        });

    private void WriteTrials() => rows.Copy(
        "trials", "agency_id, id, learner_id, practice_id, step, goals, ending, prompts_needed, response, time_to_respond, completed, censored_at, waited, wait_kept, at_once, counts, remembered, live",
        batch.Trials, trial =>
        {
            var figures = trial.Figures;
            Head(figures.Trial.Id, trial.Of.At.Learner);
            rows.Write(trial.Of.Record.Id);
            rows.Write(figures.Trial.Step);
            rows.Write(trial.Goals);
            rows.Write(figures.End.ToString());
            rows.Write(figures.PromptsNeeded);
            rows.Write(figures.Response?.ToString());
            rows.Write(figures.TimeToRespond);
            rows.Write(figures.Completed);
            rows.Write(figures.CensoredAt);
            rows.Write(figures.WaitThatEndedInResponse);
            rows.Write(figures.WaitKept);
            rows.Write(figures.Trial.AtOnce);
            rows.Write(figures.Trial.Counts);
            rows.Write(figures.Trial.Remembered is not null);
            rows.Write(true);
        });

    private void Head(Guid id, int learner)
    {
        rows.Unhashed(agency);
        rows.Write(id);
        rows.Write(learner);
    }

    private void Head(int id, int learner)
    {
        rows.Unhashed(agency);
        rows.Write(id);
        rows.Write(learner);
    }
}
