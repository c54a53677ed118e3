using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>series</c>: effects for the record.</summary>
public sealed record SeriesCase(IReadOnlyList<decimal> Baseline, IReadOnlyList<decimal> Teaching, Better Better, double Confidence)
{
    /// <summary>The most values of a series: all its pairs are looked at.</summary>
    public const int Most = 1_000;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static SeriesCase Read(CaseField field)
    {
        field.Only("kind", "baseline", "teaching", "better", "confidence");
        return new(Values(field.Get("baseline")), Values(field.Get("teaching")), BetterOf(field.Get("better")), field.Confidence());
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var overlap = Overlap.Of(Baseline, Teaching, Better, Confidence);
        var (nap, corrected, ratio) = (overlap.Nap, overlap.BaselineCorrectedTau, overlap.LogResponseRatio);
        json.WriteStartObject();
        json.Write("nap", ("value", nap.Value), ("se", nap.Se), ("low", nap.Low), ("high", nap.High));
        json.Write("tau", ("value", overlap.Tau));
        json.Write("tauU", ("value", overlap.TauU));
        json.WriteStartObject("baselineCorrectedTau");
        if (corrected.Applies is { } applies)
            json.WriteBoolean("applies", applies);
        else
            json.WriteNull("applies");
        json.WriteFigures(("value", corrected.Value), ("se", corrected.Se), ("sOverMn", corrected.SOverMn),
            ("baselineSlope", corrected.BaselineSlope), ("baselineP", corrected.BaselineP));
        json.WriteEndObject();
        json.Write("logResponseRatio", ("value", ratio.Value), ("se", ratio.Se));
        json.WriteFigures(("pnd", overlap.Pnd), ("pem", overlap.Pem), ("ird", overlap.Ird));
        json.WriteEndObject();
    }

    internal static Better BetterOf(CaseField field) => field.OneOf(("up", Better.Up), ("down", Better.Down));

    private static List<decimal> Values(CaseField field) => field.List(0, Most, value => value.Decimal());
}
