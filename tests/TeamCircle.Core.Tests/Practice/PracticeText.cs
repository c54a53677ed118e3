using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>A practice to begin from, and trials as text for a failure.</summary>
internal static class PracticeText
{
    public static readonly PracticeRecord Record = new()
    {
        Id = Guid.Parse("0199a1b2-0000-7000-8000-000000000001"),
        Routine = 3,
        Version = 12,
        Entry = PracticeEntry.Live,
        StartedAt = Instant.FromUtc(2026, 9, 14, 14, 3, 7),
        EndedAt = Instant.FromUtc(2026, 9, 14, 14, 21),
    };

    public static string Of(Trial trial) => JsonSerializer.Serialize(trial, StrictJson.Options);
}
