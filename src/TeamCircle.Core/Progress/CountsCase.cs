using System.Text.Json;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>counts</c>: two observers' counts, interval by interval.</summary>
public sealed record CountsCase(IReadOnlyList<int> First, IReadOnlyList<int> Second)
{
    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static CountsCase Read(CaseField field)
    {
        field.Only("kind", "first", "second");
        List<int> first = Counts(field.Get("first")), second = Counts(field.Get("second"));
        return first.Count == second.Count ? new(first, second) : throw field.Get("second").Wrong("must hold as many counts as first");
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var agreement = CountAgreement.Of(First, Second);
        json.WriteStartObject();
        json.WriteFigures(("total", agreement.Total), ("meanPerInterval", agreement.MeanPerInterval), ("exactPerInterval", agreement.ExactPerInterval),
            ("scored", agreement.Scored), ("unscored", agreement.Unscored));
        json.WriteEndObject();
    }

    private static List<int> Counts(CaseField field) => field.List(0, CommitmentCase.Most, count => count.Number(0, CommitmentCase.Most));
}
