using TeamCircle.Data.History;

namespace TeamCircle.Testing;

/// <summary>The key under which tests of this run seal, in a folder of its own.</summary>
public static class TestKey
{
    public static SealKey Seal { get; } = new(Path.Combine(Path.GetTempPath(), $"teamcircle-tests-{Environment.ProcessId}", "seal.key"));
}
