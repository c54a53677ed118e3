using NpgsqlTypes;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Data.Calendar;

/// <summary>
/// One appointment of one learner, for one service or of another kind. Local day, start and minutes in <see cref="Zone"/> are the truth;
/// <see cref="During"/> is derived on save. Once logged, the row carries the actual times, so that one constraint
/// keeps a person from being in two places at once, planned or real.
/// </summary>
public sealed class VisitRow : ILearnerRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public Guid Id { get; set; }
    public int LearnerId { get; set; }
    public VisitKind Kind { get; set; }

    /// <summary>Null exactly for a kind other than <see cref="VisitKind.Service"/>: it credits nothing.</summary>
    public int? ServiceId { get; set; }
    public int ProviderId { get; set; }

    /// <summary>The series and the occurrence's original local start, which stays when the visit is moved; both null for a visit on its own.</summary>
    public int? SeriesId { get; set; }
    public LocalDateTime? OriginalStart { get; set; }
    public LocalDate OnDay { get; set; }
    public LocalTime StartTime { get; set; }
    public int Minutes { get; set; }
    public required string Zone { get; set; }
    public NpgsqlRange<Instant> During { get; set; }

    /// <summary>What was planned, kept when the visit is logged; null where nobody had scheduled it.</summary>
    public LocalTime? PlannedStart { get; set; }
    public int? PlannedMinutes { get; set; }
    public VisitState State { get; set; }

    /// <summary>False once called off by correction or import; a dead row takes no time and is in no list.</summary>
    public bool Live { get; set; } = true;

    /// <summary>False for a visit not offered: nobody was anywhere.</summary>
    public bool TakesTime { get; set; } = true;

    /// <summary>Whether it takes the learner's own time (direct services).</summary>
    public bool LearnersTime { get; set; }

    /// <summary>Same number: one group session of one provider. A number of its own otherwise.</summary>
    public long GroupNo { get; set; }

    /// <summary>Same number: co-treatment of one learner by several providers. A number of its own otherwise.</summary>
    public long TogetherNo { get; set; }

    /// <summary>For a make-up visit: a day of the window that it pays.</summary>
    public LocalDate? PaysOn { get; set; }

    /// <summary>The award of compensatory services that it is for; then it counts in no window of the service.</summary>
    public int? AwardId { get; set; }
    public Place Place { get; set; }

    /// <summary>A place of the agency's list, where it is not the learner's own of that kind (<see cref="LearnerPlaceRow"/>).</summary>
    public int? PlaceId { get; set; }
    public SessionFormat Format { get; set; }
    public int? PartnerId { get; set; }
    public Reason? CalledOff { get; set; }

    /// <summary>The time away that called it off: it comes back where that ends earlier. Null for one called off by itself.</summary>
    public int? AwayId { get; set; }

    /// <summary>The closure for which an administrator called it off, as one of all that stood on it; it comes back with them. Null otherwise.</summary>
    public int? ClosureId { get; set; }

    /// <summary>Whether a person said that it takes place though there is no school that day.</summary>
    public bool OnClosedDay { get; set; }

    /// <summary>When somebody who runs late expects to begin, on the day itself; the planned start stays.</summary>
    public LocalTime? ExpectedStart { get; set; }

    /// <summary>Whether it was changed on its own: a change of its series leaves it as it is and lists it.</summary>
    public bool Touched { get; set; }

    /// <summary>RFC 5545 SEQUENCE: raised by every change of what people see in their own calendar (day, times, place, person, called off).</summary>
    public int Sequence { get; set; }

    /// <summary>The agency's own number of the visit.</summary>
    public string? Ref { get; set; }
    public Instant RecordedAt { get; set; }
    public int Version { get; set; }

    /// <summary>Sets day, start and length, and derives <see cref="During"/>.</summary>
    public void TakePlace(LocalDate day, LocalTime start, int minutes)
    {
        (OnDay, StartTime, Minutes) = (day, start, minutes);
        var (from, to) = Core.Time.WallTime.Span(day + start, minutes, DateTimeZoneProviders.Tzdb[Zone]);
        During = new(from, lowerBoundIsInclusive: true, to, upperBoundIsInclusive: false);
    }

    /// <summary>Calls it off with a reason; calendars that follow it hear of that, and its series leaves it so.</summary>
    public void CallOff(Reason reason)
    {
        (State, CalledOff, Touched) = (VisitState.CalledOff, reason, SeriesId is not null);
        (Sequence, ExpectedStart) = (Sequence + 1, null);
    }
}

public enum VisitState
{
    Planned,
    Logged,
    CalledOff,
}

/// <summary>A goal to be probed at a planned visit. A visit without any serves its provider's goals for that learner.</summary>
public sealed class VisitGoalRow : ILearnerRow
{
    public int AgencyId { get; set; }
    public int LearnerId { get; set; }
    public Guid VisitId { get; set; }
    public int GoalId { get; set; }
}
