using Npgsql;
using TeamCircle.Core;

namespace TeamCircle.Data;

/// <summary>What the database refuses, in words. The constraint's own detail holds ids and times: it goes nowhere.</summary>
internal static class Refusals
{
    public static readonly Problem ChangedMeanwhile =
        new(Problem.VersionField, "Somebody else saved a change to this meanwhile. Both versions are shown; nothing you typed is lost.");

    public static readonly Problem LoggedMeanwhile =
        new(Problem.VersionField, "Somebody logged this visit meanwhile. What was saved is shown; nothing you typed is lost.");

    public static readonly Problem NoNumber =
        new("", "This form came without its number, so nothing was saved. Open the page again and type it once more.");

    /// <summary>What is taken back needs its reason.</summary>
    public static Problem NoReason(string field) => new(field, "Say why it is taken back.");

    public static readonly Problem SavedOtherwise =
        new("", "This form was already saved with other content. Open the page again to change what was saved.");

    /// <summary>The first answer to a device's operation was that a person must look at it.</summary>
    public static readonly Problem SetAsideBefore = new("", "This was set aside for a person before.");

    /// <summary>Nothing is wrong with what was asked for: it can be done again.</summary>
    public static readonly Problem AtTheSameMoment = new("", "Somebody else saved something at the same moment. Nothing you typed is lost: save again.");

    /// <summary>The problem behind an exception, or null where it is none of the known ones.</summary>
    public static Problem? Of(Exception exception) => Find(exception) is { } e ? Of(e) : null;

    private static PostgresException? Find(Exception? exception) =>
        exception as PostgresException ?? (exception?.InnerException is { } inner ? Find(inner) : null);

    private static Problem? Of(PostgresException e) => (e.SqlState, e.ConstraintName) switch
    {
        ("TC001", _) => new("", "The count of this reporting period is closed. What arrives now waits for a restatement by the case manager."),
        ("TC003", _) => new("Start", "There is not enough time to get here from the visit before, or on to the next one. Choose another time."),
        ("TC013", _) => new("", "The count of a learner whom it touched was closed since. Reopen that count first, or restate it with the rows corrected one by one."),
        ("TC011", _) => new("", "The records of these days are under a hold: nothing that was recorded is corrected, taken back or moved until it ends. The learner's page says who set it and why."),
        ("TC014", _) => new("", "A hold, an open request or quiet keeps this record now: nothing of it is destroyed."),
        (_, "ix_destructions_agency_id_learner_id_kind") => new("Kind", "A destruction of this part is open already. Finish or stop it first."),
        (_, "aways_overlap") => new("FromDay", "The learner is already away on some of these days. Change that entry instead."),
        (_, "ix_places_agency_id_code") => new("Code", "Another place already has that code."),
        (_, "visits_provider_twice") => new("Start", "This person already has a visit at that time. Choose another time, or mark both as one group session."),
        (_, "visits_learner_twice") => new("Start", "The learner already has a visit at that time. Choose another time, or log it as co-treatment."),
        (_, "ix_people_email") => new("Email", "Somebody in this agency already has that e-mail address."),
        (_, "ix_learners_agency_id_code") => new("Code", "Another learner already has that code."),
        (_, "ix_services_agency_id_code" or "ix_service_versions_agency_id_code") => new("Code", "Another service already has that code."),
        (_, "ix_service_versions_agency_id_service_id_from_day") => new("FromDay", "The service already changes on that day."),
        (_, "ix_goals_agency_id_code") => new("Code", "Another goal already has that code."),
        (_, "periods_overlap") => new("StartDay", "Another reporting period already covers some of these days."),
        (_, "ix_closures_agency_id_on_day") => new("OnDay", "That day is already in the calendar as a closure or an extra day."),
        (_, "ix_sessions_agency_id_visit_id") => LoggedMeanwhile,
        (_, "ix_teach_parts_agency_id_learner_id_part" or "ix_routine_versions_agency_id_routine_id_number") => ChangedMeanwhile,
        (_, "ix_routines_agency_id_learner_id_name") => new("Name", "There is a routine of this name already."),
        (_, "ix_reports_agency_id_learner_id_period_id") => new("", "Somebody has begun this report meanwhile. It stands in the list."),
        (_, "ix_report_parts_agency_id_report_id_goal_id_person_id") => ChangedMeanwhile,
        (_, "ix_terms_agency_id_name" or "ix_periods_agency_id_name") => new("Name", "That name is already taken."),
        (PostgresErrorCodes.CharacterNotInRepertoire or PostgresErrorCodes.UntranslatableCharacter, _) =>
            new("", "There is a character in what was typed that can't be kept. Remove it and save again."),
        (PostgresErrorCodes.DeadlockDetected, _) => AtTheSameMoment,
        (_, "pk_practices" or "pk_trials") => new("", "This practice, or one of its trials, is on record already."),
        (_, "ix_probes_agency_id_practice_id_goal_id") => new("", "The figures of this practice are already on record for this goal."),
        _ => null,
    };
}
