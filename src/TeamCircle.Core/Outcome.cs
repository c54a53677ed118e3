namespace TeamCircle.Core;

/// <summary>What a rule or an operation answers: either a value, or every problem that stands in its way.</summary>
/// <typeparam name="T">The value's type; never null in a successful outcome.</typeparam>
public sealed class Outcome<T> where T : class
{
    private Outcome(T? value, IReadOnlyList<Problem> problems)
    {
        Value = value;
        Problems = problems;
    }

    /// <summary>The value, or null where there are problems.</summary>
    public T? Value { get; }

    /// <summary>All problems at once; empty where there is a value.</summary>
    public IReadOnlyList<Problem> Problems { get; }

    public static Outcome<T> Of(T value) => new(value, []);

    /// <summary>At least one problem is needed.</summary>
    /// <exception cref="ArgumentException">No problem was given.</exception>
    public static Outcome<T> Refused(params IReadOnlyList<Problem> problems) =>
        problems.Count > 0 ? new(null, problems) : throw new ArgumentException("A refusal needs a problem.", nameof(problems));

    public static Outcome<T> Refused(string field, string message) => Refused([new Problem(field, message)]);
}
