namespace TeamCircle.Core.Practice;

/// <summary>The wait that a form proposes; the team enters its own, and there is no default.</summary>
/// <param name="Longest">The longest silent wait that ended in a response so far, in milliseconds; null before any data.</param>
public sealed record WaitProposal(int? Longest)
{
    /// <summary>That wait and half again, up to the next whole second; null before any data.</summary>
    public int? Seconds => Longest is { } longest ? (int)((3L * longest + 1_999) / 2_000) : null;

    /// <summary>What is said before any data: common practice, no source, and one small study (Johnson and Parker 2013, JVIB 107, 363–374).</summary>
    public static readonly string BeforeData =
        "There is no data yet. Many teams start between 10 and 15 seconds with learners who need long processing time (common practice, no source); "
        + "one small study compared 5, 10 and 15 seconds (Johnson and Parker 2013).";

    public static WaitProposal Of(IEnumerable<TrialTimeline> trials) => new(trials.Max(t => t.WaitThatEndedInResponse));
}
