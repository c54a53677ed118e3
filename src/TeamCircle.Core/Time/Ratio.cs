namespace TeamCircle.Core.Time;

/// <summary>An exact ratio that is not negative: no floating point before a probability or a statistic is asked for.</summary>
/// <param name="Over">The numerator, 0 or more.</param>
/// <param name="Under">The denominator, 1 or more.</param>
public readonly record struct Ratio(Int128 Over, Int128 Under)
{
    public static Ratio Zero => new(0, 1);

    /// <summary>Rounded to the nearest whole number, halves up: floor(x + 1/2).</summary>
    public int Rounded => (int)((2 * Over + Under) / (2 * Under));

    /// <summary>The least whole number that is not smaller.</summary>
    public int RoundedUp => (int)((Over + Under - 1) / Under);

    public Ratio Times(int count) => new(Over * count, Under);

    public Ratio Plus(Ratio other)
    {
        var common = Common(Under, other.Under);
        return new(Over * (other.Under / common) + other.Over * (Under / common), Under / common * other.Under);
    }

    public bool IsMoreThan(int number) => Over > Under * number;

    private static Int128 Common(Int128 left, Int128 right)
    {
        while (right != 0)
            (left, right) = (right, left % right);
        return left;
    }
}
