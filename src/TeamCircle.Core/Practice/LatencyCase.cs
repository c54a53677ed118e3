using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Practice;

/// <summary>A case of kind <c>latency</c>: times to respond, and times at which somebody helped first.</summary>
public sealed record LatencyCase(IReadOnlyList<TimedTrial> Trials, double Confidence, decimal? UpTo)
{
    private const int Most = 100_000;
    private const int MostGroups = 100;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static LatencyCase Read(CaseField field)
    {
        field.Only("kind", "trials", "confidence", "upTo");
        var trials = field.Get("trials").List(0, Most, ReadTrial);
        if (trials.Exists(t => t.Group is not null) && trials.FindIndex(t => t.Group is null) is >= 0 and var place)
            throw field.Get("trials").Wrong($"give a group for some trials and none for the one at place {place}");
        if (trials.Select(t => t.Group).Distinct().Count() > MostGroups)
            throw field.Get("trials").Wrong($"name more than {MostGroups} groups");
        return new(trials, field.Confidence(), field.Find("upTo")?.Decimal(0));
    }

    /// <summary>Works the case out, and writes the answer as one object. Without <c>upTo</c> the mean goes up to the longest time.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var curve = WaitCurve.Of(Trials, Confidence);
        var upTo = UpTo ?? curve.Longest;
        var (mean, se) = curve.RestrictedMean(upTo);
        json.WriteStartObject();
        json.WriteStartArray("steps");
        foreach (var step in curve.Steps)
            Write(json, step);
        json.WriteEndArray();
        json.WriteStartObject("restrictedMean");
        json.WriteNumber("upTo", upTo);
        json.WriteFigures(("value", mean), ("se", se));
        json.WriteEndObject();
        if (Trials.Select(t => t.Group).Distinct().Count() > 1)
        {
            var test = LogRank.Of(Trials);
            json.WriteStartObject("logRank");
            json.WriteNumber("df", test.Df);
            json.WriteFigures(("chiSquare", test.ChiSquare), ("p", test.P));
            json.WriteEndObject();
        }
        json.WriteFigures(("median", curve.Median.Value));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, WaitStep step)
    {
        json.WriteStartObject();
        json.WriteNumber("seconds", step.Seconds);
        json.WriteNumber("atRisk", step.AtRisk);
        json.WriteNumber("answered", step.Answered);
        json.WriteNumber("waiting", step.Waiting);
        json.WriteFigures(("se", step.Se), ("low", step.Low), ("high", step.High));
        json.WriteEndObject();
    }

    private static TimedTrial ReadTrial(CaseField field) => new(
        field.Only("seconds", "answered", "group").Get("seconds").Decimal(0), field.Get("answered").Flag(), field.Find("group")?.Text());
}
