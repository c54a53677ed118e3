namespace TeamCircle.Core.Commitments;

/// <summary>An agency's policies over time: each begins with a reporting period, and a window has the one of the period it closes in.</summary>
public sealed class Policies
{
    private readonly (int From, Policy Policy)[] _dated;

    /// <param name="first">The policy before any dated one.</param>
    /// <param name="dated">Later policies by the first day of the period with which they begin, in any order.</param>
    public Policies(Policy first, params (int From, Policy Policy)[] dated)
    {
        First = first;
        _dated = [.. dated.OrderBy(d => d.From)];
    }

    public Policy First { get; }

    /// <summary>Later policies by the first day of the period with which they begin, oldest first.</summary>
    public IReadOnlyList<(int From, Policy Policy)> Dated => _dated;

    /// <summary>The policy on a day: for a window the day it closes, for a period its last day.</summary>
    public Policy On(int day)
    {
        var found = First;
        foreach (var (from, policy) in _dated)
        {
            if (from > day)
                break;
            found = policy;
        }
        return found;
    }
}
