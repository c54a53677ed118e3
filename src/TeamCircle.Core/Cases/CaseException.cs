namespace TeamCircle.Core.Cases;

/// <summary>A case file that cannot be worked out: one sentence, which names the field.</summary>
public sealed class CaseException(string field, string wrong) : Exception(OneLine($"{field}: {wrong}"))
{
    /// <summary>Where it is, such as <c>case.given[3].pays</c>.</summary>
    public string Field { get; } = field;

    /// <summary>Names of unknown fields come from the file, and may hold anything.</summary>
    private static string OneLine(string text) => string.Concat(text.Select(c => char.IsControl(c) ? '?' : c));
}
