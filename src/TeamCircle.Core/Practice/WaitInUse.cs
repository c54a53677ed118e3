using NodaTime;
using TeamCircle.Core.Routines;

namespace TeamCircle.Core.Practice;

/// <summary>The silent wait before the first prompt at one step of a version.</summary>
/// <param name="Step">The step's key.</param>
public sealed record WaitInUse(int Routine, string Step, int Seconds)
{
    /// <summary>Of the steps that ask for a response and have a wait.</summary>
    /// <param name="goal">Only the steps that serve it; null: all.</param>
    public static IReadOnlyList<WaitInUse> Of(int routine, RoutineContent content, int? goal) => [.. content.Steps
        .Where(s => s.Kind == StepKind.Response && (goal is not { } id || s.Goals.Contains(id)) && content.Prompts.Count > 0)
        .Select(s => (s.Key, Seconds: content.WaitBefore(s, content.Prompts[0])))
        .Where(s => s.Seconds > 0)
        .Select(s => new WaitInUse(routine, s.Key, s.Seconds!.Value))];
}

/// <summary>A version of a routine with its waits.</summary>
/// <param name="On">When it was written.</param>
public sealed record WaitVersion(int Routine, string Name, int Number, LocalDate On, IReadOnlyList<WaitInUse> Waits)
{
    /// <summary>0 where it has none.</summary>
    public int Longest => Waits.Count == 0 ? 0 : Waits.Max(w => w.Seconds);
}

/// <summary>A version of a routine that waits longer than the one before it.</summary>
/// <param name="Version">Its number.</param>
/// <param name="From">The longest wait of the version before, in seconds.</param>
public sealed record Lengthened(int Routine, string Name, int Version, LocalDate On, int From, int To)
{
    /// <summary>The last one by its day; null where no wait was lengthened. A version without waits is passed over.</summary>
    public static Lengthened? LastOf(IEnumerable<WaitVersion> versions) => versions.Where(v => v.Longest > 0)
        .GroupBy(v => v.Routine).SelectMany(routine => routine.OrderBy(v => v.Number).Zip(routine.OrderBy(v => v.Number).Skip(1)))
        .Where(pair => pair.Second.Longest > pair.First.Longest)
        .OrderBy(pair => pair.Second.On).ThenBy(pair => pair.Second.Number)
        .Select(pair => new Lengthened(pair.Second.Routine, pair.Second.Name, pair.Second.Number, pair.Second.On, pair.First.Longest, pair.Second.Longest))
        .LastOrDefault();
}
