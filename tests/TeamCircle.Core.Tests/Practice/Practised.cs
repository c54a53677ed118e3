using NodaTime;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

/// <summary>Trials as they are read over many practices; valid by default.</summary>
internal static class Practised
{
    public static PractisedOnce Once(
        int person = 1, int routine = 7, int version = 1, LocalDate? day = null, string? side = null, string? position = null, StateOfLearner? state = null, CountOf? steps = null) =>
        new(Guid.CreateVersion7(), day ?? new(2026, 9, 15), person, routine, version, steps ?? new(2, 2)) { Side = side, Position = position, State = state };

    /// <summary>Answered without help after so many seconds.</summary>
    public static PractisedTrial Answered(PractisedOnce once, double seconds, string step = "press") =>
        new(once, step, TrialEnd.Response, true, false, false, 0, ResponseKind.HopedFor, (int)(seconds * 1000), null, true);

    /// <summary>Helped first, after so many seconds.</summary>
    public static PractisedTrial Helped(PractisedOnce once, double seconds, bool waitKept = true) =>
        new(once, "press", TrialEnd.Response, true, false, false, 1, ResponseKind.HopedFor, null, (int)(seconds * 1000), waitKept);
}
