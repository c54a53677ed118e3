using System.Text.Json;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Closing;

/// <summary>The figures of a line as they were sealed: the sums over the windows that close in the period.</summary>
/// <param name="Figures">Whole minutes, probes or sessions by their names in an answer to case kind <c>commitment</c>.</param>
/// <param name="Status">The status's code (<see cref="CommitmentAnswer.Code"/>).</param>
public sealed record SealedAnswer(IReadOnlyDictionary<string, int> Figures, string Status)
{
    /// <summary>0 where the line has no such figure.</summary>
    public int this[string name] => Figures.GetValueOrDefault(name);

    public bool HasSessions => Figures.ContainsKey("sessionsDue");

    /// <summary>The status of a code.</summary>
    public static Status StatusOf(string code) => Enum.Parse<Status>(code, ignoreCase: true);

    /// <exception cref="JsonException">It is no answer to a case of kind <c>commitment</c>.</exception>
    public static SealedAnswer Read(string json)
    {
        using var document = JsonDocument.Parse(json);
        var figures = document.RootElement.EnumerateObject().Where(p => p.Value.ValueKind == JsonValueKind.Number).ToDictionary(p => p.Name, p => p.Value.GetInt32());
        return document.RootElement.TryGetProperty("status", out var status) && status.GetString() is { } code ? new(figures, code) : throw new JsonException("An answer has a status.");
    }
}
