namespace TeamCircle.Core;

/// <summary>A statistic, or the reason why it cannot be computed: never a silent "not a number".</summary>
public sealed record Figure
{
    private Figure(double? value, string? why) => (Value, Why) = (value, why);

    /// <summary>Unrounded; null where it cannot be computed.</summary>
    public double? Value { get; }

    /// <summary>The reason, in words that may follow a colon; null where there is a value.</summary>
    public string? Why { get; }

    /// <exception cref="ArgumentOutOfRangeException">The value is infinite or no number.</exception>
    public static Figure Of(double value) =>
        double.IsFinite(value) ? new(value, null) : throw new ArgumentOutOfRangeException(nameof(value), value, "A statistic is a number, or it has a reason why not.");

    public static Figure None(string why) => new(null, why);

    /// <summary>"too few points (have 2, need 3)"</summary>
    public static Figure TooFew(string what, int have, int need) => None($"too few {what} (have {have}, need {need})");
}
