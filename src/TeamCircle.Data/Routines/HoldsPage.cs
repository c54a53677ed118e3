using TeamCircle.Core.Learners;
using TeamCircle.Core.Routines;

namespace TeamCircle.Data.Routines;

/// <summary>A hold with its names.</summary>
/// <param name="Routine">The routine's name; null for a part.</param>
/// <param name="Step">The step's words on the newest card, or its key where that has it no more; null where it lies on no step.</param>
/// <param name="ToldBy">Who gave the word; null where it was the setter's own, as is <paramref name="ToldOn"/>.</param>
/// <param name="SetAt">In the agency's time.</param>
/// <param name="Ended">Null while it stands.</param>
public sealed record HoldShown(
    int Id, int Version, HoldPlace Place, string? Routine, string? Step, string Reason, HoldWord ToldAs, string? ToldBy, LocalDate? ToldOn, LocalTime? ToldTime,
    string SetBy, LocalDateTime SetAt, HoldEnd? Ended)
{
    /// <summary>The learner's routines that it stops, in whole or in a step; none once it has ended.</summary>
    public IReadOnlyDictionary<int, HoldEffect> Stops { get; init; } = new Dictionary<int, HoldEffect>();

    /// <summary>What the service is; null where it lies on none.</summary>
    public Discipline? Service { get; init; }

    /// <summary>The services at whose visits nothing is practised; none once it has ended.</summary>
    public IReadOnlySet<int> Services { get; init; } = new HashSet<int>();
}

/// <param name="AgreedBy">The licensed person who agreed; null where nobody was named.</param>
public sealed record HoldEnd(string By, LocalDateTime At, string Word, string? AgreedBy);

/// <summary>A learner's holds, newest first.</summary>
/// <param name="MaySet">Whether the reader may set one.</param>
/// <param name="Routines">On what one can be set: the routines that go on, with their steps.</param>
/// <param name="Services">And the services that go on.</param>
public sealed record HoldsPage(
    int LearnerId, string Learner, bool MaySet, IReadOnlyList<StandingHold> Standing, IReadOnlyList<HoldShown> Ended, IReadOnlyList<HoldableRoutine> Routines,
    IReadOnlyList<HoldableService> Services);

/// <param name="Owner">The discipline that may end it; null: only the case manager.</param>
/// <param name="Ending">Whether the reader may end it.</param>
/// <param name="Unheard">The team's devices that have not been in contact since it was set.</param>
public sealed record StandingHold(HoldShown Hold, Discipline? Owner, HoldEnding Ending, IReadOnlyList<TeamDevice> Unheard);

/// <param name="Person">The name of whose it is.</param>
/// <param name="Name">As its owner calls it.</param>
/// <param name="LastContact">In the agency's time; null before the first.</param>
public sealed record TeamDevice(string Person, string Name, LocalDateTime? LastContact);

/// <param name="Code">Under which it stands in the plan.</param>
public sealed record HoldableService(int Id, string Code, Discipline Discipline);

/// <param name="Steps">Of its newest card, in order.</param>
public sealed record HoldableRoutine(int Id, string Name, IReadOnlyList<RoutineStep> Steps);
