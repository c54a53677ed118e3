using System.Text.Json.Serialization;
using NodaTime;

namespace TeamCircle.Core.Closing;

/// <summary>Who awarded compensatory services.</summary>
public enum AwardSource
{
    /// <summary>The learner's own team.</summary>
    Team,
    Settlement,

    /// <summary>The answer to a complaint to the state.</summary>
    Complaint,

    /// <summary>A hearing officer or a court.</summary>
    Hearing,

    /// <summary>Somebody else, or a file did not say who: the paper's own words stand beside it.</summary>
    Other,
}

/// <summary>What an award counts.</summary>
public enum AwardUnit
{
    Minutes,
    Sessions,
}

/// <summary>A visit that names an award.</summary>
/// <param name="Minutes">Minutes given, or to be given.</param>
public readonly record struct AwardVisit(LocalDate Day, int Minutes);

/// <summary>How an award of compensatory services stands (docs/rules.md, part 7).</summary>
/// <param name="Given">By visits up to the as-of day, also beyond what was awarded.</param>
/// <param name="Planned">By visits planned from that day on.</param>
public sealed record AwardBalance(AwardUnit Unit, int Awarded, int Given, int Planned)
{
    /// <summary>What is still to be given; zero once all of it is.</summary>
    [JsonIgnore]
    public int Left => Math.Max(0, Awarded - Given);

    /// <summary>What is left and no visit is planned for.</summary>
    [JsonIgnore]
    public int StillToPlan => Math.Max(0, Left - Planned);

    /// <summary>Works the balance out. A visit that gave no minute is no session.</summary>
    /// <param name="given">Visits given, one for each session; those after the as-of day are left out.</param>
    /// <param name="planned">Visits not logged; those before the as-of day are left out.</param>
    public static AwardBalance Of(
        AwardUnit unit, int awarded, IEnumerable<AwardVisit> given, IEnumerable<AwardVisit> planned, LocalDate asOf)
    {
        int Sum(IEnumerable<AwardVisit> visits) => visits.Where(v => v.Minutes > 0).Sum(v => unit == AwardUnit.Minutes ? v.Minutes : 1);
        return new(unit, awarded, Sum(given.Where(v => v.Day <= asOf)), Sum(planned.Where(v => v.Day >= asOf)));
    }
}
