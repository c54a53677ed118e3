using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Cases;

/// <summary>Works out a case file: one case, or a list of them, each bare or as <c>{"case": ..., "expected": ...}</c>.</summary>
public static class CaseFile
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The answer as JSON; a list of answers, in the same order, for a list of cases.</summary>
    /// <exception cref="CaseException">The file is not JSON, or a field of a case is wrong.</exception>
    public static string WorkOut(string json)
    {
        var file = CaseField.Parse(json);
        using var buffer = new MemoryStream();
        using (var answer = new Utf8JsonWriter(buffer, Options))
        {
            if (file.IsList)
                answer.WriteStartArray();
            foreach (var write in file.IsList ? file.List(Answer) : [Answer(file)])
                write(answer);
            if (file.IsList)
                answer.WriteEndArray();
        }
        return Encoding.UTF8.GetString(buffer.ToArray());
    }

    private static Action<Utf8JsonWriter> Answer(CaseField field)
    {
        var single = field.Has("case") ? field.Only("case", "expected").Get("case") : field;
        var kind = single.Get("kind");
        switch (kind.Text())
        {
            case "commitment":
                var working = CommitmentCase.Read(single).WorkOut();
                return json => CommitmentAnswer.Write(json, working);
            case "forecast":
                return ForecastCase.Read(single).Write;
            case "series":
                return SeriesCase.Read(single).Write;
            case "trend":
                return TrendCase.Read(single).Write;
            case "aimline":
                return AimlineCase.Read(single).Write;
            case "latency":
                return LatencyCase.Read(single).Write;
            case "agreement":
                return AgreementCase.Read(single).Write;
            case "counts":
                return CountsCase.Read(single).Write;
            case "proportion":
                return ProportionCase.Read(single).Write;
            case "recurrence":
                return RecurrenceCase.Read(single).Write;
            case "makeUp":
                return MakeUpCase.Read(single).Write;
            default:
                throw kind.Wrong("is not a kind that can be worked out here; known kinds: commitment, forecast, series, trend, aimline, latency, "
                    + "agreement, counts, proportion, recurrence, makeUp");
        }
    }
}
