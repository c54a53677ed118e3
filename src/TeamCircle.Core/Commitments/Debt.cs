using System.Text.Json.Serialization;

namespace TeamCircle.Core.Commitments;

/// <summary>Something brought forward from a sealed period, as make-ups are counted against it (docs/rules.md, part 7).</summary>
/// <remarks>
/// <para>Make-ups that name it and are dated after <paramref name="Since"/> pay it as rule 5 has it: each at most what is left of
/// it, the rest counting on its own date. The figures of the sealed window stay, and show it as made up since.</para>
/// <para>Example: 60 minutes were open, 30 of them made up before the closing: most 60, paid before 30. A make-up of 45 after
/// that pays 30, and 15 count on its own date.</para>
/// </remarks>
/// <param name="Day">A day of the window. Brought by file: the very day that make-ups name, in a window or not.</param>
/// <param name="Since">The last day of the sealed period; what is dated later pays the debt.</param>
/// <param name="Most">What make-ups after that day can pay in all, what they had paid before the closing included.</param>
/// <param name="PaidBefore">What make-ups after that day had paid before the closing: given in the sealed figures already.</param>
/// <param name="DecidedNotOwed">What people decided later need not be made up, however much lacks.</param>
public readonly record struct Debt(int Day, int Since, DebtAmount Most, DebtAmount PaidBefore, DebtAmount DecidedNotOwed)
{
    /// <summary>Whether an agency that starts in mid-year brought it: then no window of this portal stands behind it.</summary>
    public bool IsFromFile { get; init; }

    /// <summary>What was brought forward.</summary>
    public DebtAmount Opened => Most.Less(PaidBefore);

    /// <summary>What stands of it.</summary>
    /// <param name="paid">All that make-ups after <see cref="Since"/> paid.</param>
    public DebtSums Sums(DebtAmount paid)
    {
        var since = paid.Less(PaidBefore);
        var left = Opened.Less(since);
        return new(left.Less(DecidedNotOwed), since);
    }
}

/// <summary>An amount in both units of a promise; neither is worked out from the other.</summary>
/// <param name="Minutes">Minutes, or probes.</param>
/// <param name="Sessions">0 where no number of sessions is promised.</param>
public readonly record struct DebtAmount(int Minutes, int Sessions)
{
    [JsonIgnore]
    public bool IsNothing => Minutes == 0 && Sessions == 0;

    public DebtAmount Plus(DebtAmount other) => new(Minutes + other.Minutes, Sessions + other.Sessions);

    /// <summary>What is left after taking something away; never below zero.</summary>
    public DebtAmount Less(DebtAmount other) => new(Math.Max(0, Minutes - other.Minutes), Math.Max(0, Sessions - other.Sessions));

    /// <summary>The smaller of each unit.</summary>
    public DebtAmount AtMost(DebtAmount other) => new(Math.Min(Minutes, other.Minutes), Math.Min(Sessions, other.Sessions));
}

/// <summary>What was brought forward into a period: what is open as of the day, and what make-ups paid of it by then.</summary>
public readonly record struct DebtSums(DebtAmount Open, DebtAmount Paid)
{
    public bool IsNothing => Open.IsNothing && Paid.IsNothing;

    public DebtSums Plus(in DebtSums other) => new(Open.Plus(other.Open), Paid.Plus(other.Paid));
}
