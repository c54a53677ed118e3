namespace TeamCircle.Testing.Faults;

/// <summary>What a database holds of the acts that were sent.</summary>
/// <param name="Stored">D.</param>
/// <param name="Aside">X: set aside, waiting for a person.</param>
/// <param name="Looked">The invariants that were looked at.</param>
/// <param name="Broken">Those that do not hold, each in a sentence that begins with its name.</param>
public sealed record Found(IReadOnlySet<Guid> Stored, IReadOnlySet<Guid> Aside, IReadOnlyList<string> Looked, IReadOnlyList<string> Broken);
