using NodaTime;

namespace TeamCircle.Benchmarks;

/// <summary>The real clock on another day: made-up rows are read on the day for which they were made, and time goes on from there.</summary>
internal sealed class ShiftedClock(Instant begin) : TimeProvider
{
    public TimeSpan Ahead { get; } = begin.ToDateTimeOffset() - System.GetUtcNow();

    public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + Ahead;
}
