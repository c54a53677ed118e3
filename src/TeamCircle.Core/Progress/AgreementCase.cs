using System.Text.Json;
using TeamCircle.Core.Cases;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>agreement</c>: two observers' codes, trial by trial or as a table.</summary>
public sealed record AgreementCase(Agreement Agreement)
{
    private const int MostCodes = 100;
    private const int MostTrials = 100_000;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static AgreementCase Read(CaseField field)
    {
        field.Only("kind", "first", "second", "table", "weights");
        var weights = field.Find("weights")?.OneOf(("none", Weights.None), ("linear", Weights.Linear), ("quadratic", Weights.Quadratic)) ?? Weights.None;
        if (field.Find("table") is not { } table)
            return new(OfCodes(field, weights));
        if (field.Find("first") is not null || field.Find("second") is not null)
            throw table.Wrong("stands beside first and second; give one or the other");
        var rows = table.List(1, MostCodes, row => row.List(count => count.Number(0, CommitmentCase.Most)));
        return rows.TrueForAll(row => row.Count == rows.Count)
            ? new(Agreement.OfTable(rows, weights))
            : throw table.Wrong("must have as many columns as rows");
    }

    /// <summary>Writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("trials", Agreement.Trials);
        json.WriteNumber("agree", Agreement.Agree);
        json.WriteFigures(("exact", Agreement.Exact), ("chance", Agreement.Chance), ("kappa", Agreement.Kappa), ("kappaSe", Agreement.KappaSe));
        json.WriteEndObject();
    }

    private static Agreement OfCodes(CaseField field, Weights weights)
    {
        var first = field.Get("first").List(0, MostTrials, Code.Read);
        var second = field.Get("second").List(0, MostTrials, Code.Read);
        if (first.Count != second.Count)
            throw field.Get("second").Wrong("must hold as many codes as first");
        return first.Concat(second).Distinct().Count() <= MostCodes
            ? Agreement.Of(first, second, weights)
            : throw field.Get("first").Wrong($"and second use more than {MostCodes} codes");
    }

    /// <summary>A whole number or a text; numbers stand before texts, each in its own order.</summary>
    private readonly record struct Code(int? Number, string Text) : IComparable<Code>
    {
        public static Code Read(CaseField field) => field.IsText ? new(null, field.Text()) : new(field.Number(int.MinValue, int.MaxValue), "");

        public int CompareTo(Code other) => (Number, other.Number) switch
        {
            ({ } one, { } two) => one.CompareTo(two),
            (null, null) => string.CompareOrdinal(Text, other.Text),
            (null, _) => 1,
            _ => -1,
        };
    }
}
