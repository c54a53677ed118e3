using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Web.Ui;

/// <summary>The words of the calendar and the policy.</summary>
public static partial class Say
{
    public static string Closure(ClosureKind kind) => kind switch
    {
        ClosureKind.Published => "closed, in the published calendar",
        ClosureKind.Unscheduled => "closed without notice (weather, emergency, strike)",
        _ => "extra day of school",
    };

    public static string Surplus(Surplus surplus) => surplus == Core.Commitments.Surplus.EachWindowAlone
        ? "each week or month stands alone"
        : "what is beyond the plan in one counts for another of the same reporting period";

    /// <summary>The whole policy, a sentence each.</summary>
    public static IEnumerable<string> Policy(Policy policy)
    {
        yield return $"A week or month with fewer school days than usual is {ShortWindow(policy.ShortWindow)}.";
        yield return $"Minutes beyond the plan: {Surplus(policy.Surplus)}.";
        yield return policy.TolerancePercent == 0
            ? "Nothing that is still missing after the period is within tolerance."
            : $"After the period, up to {policy.TolerancePercent} % of what is due is within tolerance, which is never called met.";
        yield return policy.SessionShare == 100
            ? "A visit counts as one session when it has the whole length of one."
            : $"A visit counts as one session from {policy.SessionShare} % of the length of one.";
    }
}
