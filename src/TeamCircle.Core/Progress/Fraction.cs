using System.Numerics;

namespace TeamCircle.Core.Progress;

/// <summary>An exact fraction of either sign. What ties in decimals ties here; in binary floating point it often does not.</summary>
/// <remarks>It is not shortened, so that two which are equal may be written differently: compare them.</remarks>
internal readonly struct Fraction : IComparable<Fraction>
{
    // far above the rounding of the three operations behind it, so that only what is almost equal is compared exactly
    private const double Rounding = 1e-12;

    private readonly BigInteger _over;
    private readonly BigInteger _under;

    private Fraction(BigInteger over, BigInteger under)
    {
        (_over, _under) = under.Sign < 0 ? (-over, -under) : (over, under);
        Value = (double)_over / (double)_under;
    }

    public double Value { get; }

    public int Sign => _over.Sign;

    public static Fraction Of(decimal value)
    {
        var bits = decimal.GetBits(value);
        var digits = new BigInteger(new decimal(bits[0], bits[1], bits[2], value < 0, 0));
        return new(digits, BigInteger.Pow(10, value.Scale));
    }

    /// <param name="under">Not 0.</param>
    public static Fraction Ratio(BigInteger over, BigInteger under) => new(over, under);

    public Fraction Plus(Fraction other) =>
        _under == other._under ? new(_over + other._over, _under) : new(_over * other._under + other._over * _under, _under * other._under);

    public Fraction Minus(Fraction other) => Plus(new(-other._over, other._under));

    public Fraction Times(Fraction other) => new(_over * other._over, _under * other._under);

    /// <exception cref="DivideByZeroException">The other is 0.</exception>
    public Fraction Over(Fraction other) =>
        other.Sign != 0 ? new(_over * other._under, _under * other._over) : throw new DivideByZeroException();

    /// <summary>The least whole number that is not smaller.</summary>
    public BigInteger RoundedUp => -FloorOf(-_over, _under);

    public int CompareTo(Fraction other)
    {
        if (Math.Abs(Value - other.Value) > Rounding * Math.Max(Math.Abs(Value), Math.Abs(other.Value)))
            return Value.CompareTo(other.Value);
        return (_over * other._under).CompareTo(other._over * _under);
    }

    /// <summary>The middle one of sorted values, or the mean of the two in the middle.</summary>
    public static Fraction MedianOf(IReadOnlyList<Fraction> sorted)
    {
        var middle = sorted.Count / 2;
        return sorted.Count % 2 == 1 ? sorted[middle] : sorted[middle - 1].Plus(sorted[middle]).Over(Of(2));
    }

    private static BigInteger FloorOf(BigInteger over, BigInteger under) => (over - (((over % under) + under) % under)) / under;
}
