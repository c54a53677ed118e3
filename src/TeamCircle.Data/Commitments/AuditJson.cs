using System.Globalization;
using System.Text.Json;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>Writes an audit as JSON: one entry a service, then one a probe commitment, with the figures of a worked case.</summary>
public static class AuditJson
{
    public static void Write(Stream stream, Audit audit)
    {
        using var json = new Utf8JsonWriter(stream, new() { Indented = true });
        json.WriteStartObject();
        json.WriteString("period", audit.Period.Name);
        json.WriteString("asOf", audit.AsOf.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture));
        json.WriteStartArray("entries");
        foreach (var line in audit.Lines)
            WriteEntry(json, audit, line);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteEntry(Utf8JsonWriter json, Audit audit, AuditLine line)
    {
        json.WriteStartObject();
        json.WriteString("learner", audit.Names.Learners[line.Line.LearnerId].Code);
        json.WriteString(line.Line.IsProbes ? "goal" : "service", line.Line.Code);
        json.WriteString("provider", audit.ProviderEmails(line.Line));
        CommitmentAnswer.WriteFigures(json, line.Balance);
        json.WriteEndObject();
    }
}
