using System.Globalization;

namespace TeamCircle.Core.Guide;

/// <summary>Several numbers in one field, as a reader types them: with spaces or commas between.</summary>
internal static class NumberText
{
    public const int Most = 60;

    /// <summary>The parts of a typed text; none of an empty one.</summary>
    public static string[] Parts(string? text) => (text ?? "").Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Whole numbers; null where one of them is none, or they are too many or too large.</summary>
    public static List<int>? Whole(string? text, int largest)
    {
        List<int> numbers = [];
        foreach (var part in Parts(text))
        {
            if (!int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out var number) || number > largest || numbers.Count == Most)
                return null;
            numbers.Add(number);
        }
        return numbers;
    }

    /// <summary>Numbers with a point; null as <see cref="Whole"/>.</summary>
    public static List<decimal>? Decimal(string? text, decimal largest)
    {
        List<decimal> numbers = [];
        foreach (var part in Parts(text))
        {
            if (!decimal.TryParse(part, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) || number > largest || numbers.Count == Most)
                return null;
            numbers.Add(number);
        }
        return numbers;
    }
}
