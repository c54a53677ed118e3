using TeamCircle.Data.Learners;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Moves;

/// <summary>Ends a dated row on a day: what stood is taken back with the reason, and the same stands up to that day where it had begun by then.</summary>
internal static class EndOnDay
{
    public static void EndOn(this RelationRow row, PortalDb db, LocalDate day, string reason)
    {
        (row.Live, row.TakenBackReason) = (false, reason);
        if (row.FromDay <= day)
            db.Add(row.With(row.FromDay, day, row.SupervisorId));
    }

    public static RelationRow With(this RelationRow row, LocalDate from, LocalDate? to, int? supervisor) => new()
    {
        AgencyId = row.AgencyId,
        LearnerId = row.LearnerId,
        PersonId = row.PersonId,
        Kind = row.Kind,
        FromDay = from,
        ToDay = to,
        SupervisorId = supervisor,
        Ground = row.Ground,
    };

    public static void EndOn(this AssignmentRow row, PortalDb db, LocalDate day, string reason)
    {
        (row.Live, row.TakenBackReason) = (false, reason);
        if (row.FromDay <= day)
            db.Add(row.With(row.PersonId, row.FromDay, day));
    }

    public static AssignmentRow With(this AssignmentRow row, int person, LocalDate from, LocalDate to) =>
        new() { AgencyId = row.AgencyId, LearnerId = row.LearnerId, ServiceId = row.ServiceId, PersonId = person, FromDay = from, ToDay = to };

    public static void EndOn(this GoalOwnerRow row, PortalDb db, LocalDate day, string reason)
    {
        (row.Live, row.TakenBackReason) = (false, reason);
        if (row.FromDay <= day)
            db.Add(row.With(row.PersonId, row.FromDay, day));
    }

    public static GoalOwnerRow With(this GoalOwnerRow row, int person, LocalDate from, LocalDate to) => new()
    {
        AgencyId = row.AgencyId,
        LearnerId = row.LearnerId,
        GoalId = row.GoalId,
        PersonId = person,
        Position = row.Position,
        FromDay = from,
        ToDay = to,
    };
}
