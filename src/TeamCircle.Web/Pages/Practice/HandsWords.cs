using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Practice;

/// <summary>What two people recorded of the same learner, worded without blame.</summary>
public static class HandsWords
{
    /// <summary>3 of 8 (38 percent, between 14 and 69)</summary>
    public static string WithoutHelp(Hands hands) => hands.Share is { Value.Value: { } share, Low.Value: { } low, High.Value: { } high }
        ? $"{PracticeWords.Of(hands.WithoutHelp)} ({WaitWords.Percent(share)}, {WaitWords.Ends(low, high)})"
        : "no opportunity";

    /// <summary>12 more in a hundred than with the others, between 5 fewer and 29 more: it may be none</summary>
    public static string Difference(Proportion? difference) => difference is { Value.Value: { } value, Low.Value: { } low, High.Value: { } high }
        ? Math.Sign(low) == Math.Sign(high)
            ? $"{Beside(value)}, between {Number(Math.Min(Math.Abs(low), Math.Abs(high)))} and {Number(Math.Max(Math.Abs(low), Math.Abs(high)))}"
            : $"{Beside(value)}, between {Signed(low)} and {Signed(high)}: it may be none"
        : "nobody to set beside";

    private static string Beside(double difference) =>
        Number(difference) == "0" ? "as many as with the others" : $"{Number(difference)} {(difference > 0 ? "more" : "fewer")} in a hundred than with the others";

    private static string Signed(double difference) => $"{Number(difference)} {(difference > 0 ? "more" : "fewer")}";

    private static string Number(double difference) => WaitWords.Rounded(100 * Math.Abs(difference), 0);
}
