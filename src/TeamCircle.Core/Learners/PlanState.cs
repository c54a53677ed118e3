using NodaTime;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Learners;

/// <summary>How far a plan has been written: what somebody has read of it, told apart from what it has become since.</summary>
/// <remarks>
/// The number is the sum of the version tokens of the plan, its services, their amounts and its goals, those taken back among them. Each act that
/// writes one of them raises it, and nothing lowers it: an amendment, an ended service and a goal reworded each ask everybody anew, and so does what
/// is taken back. Who is named for a service, and what was given, do not move it.
/// </remarks>
/// <param name="LearnerId">Whose plan it is.</param>
/// <param name="PlanId">The plan.</param>
/// <param name="Number">Grows with each act; 1 or more.</param>
public sealed record PlanState(int LearnerId, int PlanId, LocalDate StartDay, LocalDate EndDay, int Number);

/// <summary>What a person confirmed: the plan at a number, on a day.</summary>
public sealed record PlanReading(int PersonId, int Number, LocalDate OnDay);

/// <summary>Where a person stands with reading the plan.</summary>
public enum PlanKnown
{
    Never,

    /// <summary>As it stood before it was amended.</summary>
    Earlier,
    AsItStands,
}

/// <summary>Who confirms to have read the plan and to know their part in it (34 CFR 300.323(d)).</summary>
public static class AcknowledgmentRules
{
    /// <summary>What is confirmed, word for word.</summary>
    public const string Words = "I have read the plan and know my part in it.";

    /// <summary>Everybody who works with the learner for longer than a day: a substitute reads <em>read first</em> instead, and a family and a reviewer give no service.</summary>
    public static bool IsAsked(Relation relation) => relation is Relation.Team or Relation.CaseManager or Relation.Assistant;

    /// <summary>The same of a caller and a learner today.</summary>
    public static bool IsAsked(Caller caller, int learner) =>
        caller.IsStaff && caller.Standings.Any(s => s.LearnerId == learner && IsAsked(s.Relation));

    /// <summary>Where a person stands, and since when.</summary>
    /// <param name="number">The plan's state now.</param>
    /// <param name="readings">What anybody confirmed of this plan.</param>
    /// <returns>The day of the latest confirmation; null where there is none.</returns>
    public static (PlanKnown Known, LocalDate? On) Of(int person, int number, IEnumerable<PlanReading> readings)
    {
        var latest = readings.Where(r => r.PersonId == person).MaxBy(r => r.Number);
        return latest is null ? (PlanKnown.Never, null) : (latest.Number >= number ? PlanKnown.AsItStands : PlanKnown.Earlier, latest.OnDay);
    }
}
