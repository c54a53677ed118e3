using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Core.Closing;

/// <summary>One line of a statement, as sealed.</summary>
/// <param name="Position">From 0, in the statement's order.</param>
/// <param name="Service">Exactly one of service and goal.</param>
/// <param name="Owner">For probes asked of each owner: the owner.</param>
/// <param name="Inputs">A case of kind <c>commitment</c> in canonical JSON: <c>workout</c> answers it with <paramref name="Answer"/>.</param>
public sealed record SealedLine(int Position, int? Service, int? Goal, int? Owner, string Inputs, string Answer);

/// <summary>Everything that a statement seals.</summary>
/// <param name="Edition">From 1.</param>
/// <param name="SealedAt">To the microsecond.</param>
/// <param name="Rules">The version of the rules: <see cref="RulesVersion"/>.</param>
/// <param name="Policy">Canonical JSON, as <paramref name="Facts"/> and <paramref name="LeftStanding"/>.</param>
/// <param name="Block">The hash of the trail's last block before it; null where nothing was sealed yet.</param>
/// <param name="Restates">The number of the statement in whose place it stands.</param>
public sealed record SealedStatement(
    int Agency, int Learner, int Period, int Edition, int SealedBy, Instant SealedAt, string Credential, string Meaning, string Rules, string Policy,
    LocalDate AsOf, string Facts, string LeftStanding, string? Block, int? Restates, string? Reason, int? ReopenedBy, IReadOnlyList<SealedLine> Lines)
{
    /// <summary>The version of docs/rules.md by which answers are worked out; it is raised with every change that could change an answer.</summary>
    public const string RulesVersion = "1";

    /// <summary>SHA-256, in hexadecimal, over the canonical JSON of everything above.</summary>
    public string Hash() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(CanonicalJson.Write(Write))));

    private void Write(Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteNumber("agency", Agency);
        json.WriteNumber("learner", Learner);
        json.WriteNumber("period", Period);
        json.WriteNumber("edition", Edition);
        json.WriteNumber("sealedBy", SealedBy);
        json.WriteString("sealedAt", InstantPattern.ExtendedIso.Format(SealedAt));
        json.WriteString("credential", Credential);
        json.WriteString("meaning", Meaning);
        json.WriteString("rules", Rules);
        Raw(json, "policy", Policy);
        json.WriteString("asOf", LocalDatePattern.Iso.Format(AsOf));
        Raw(json, "facts", Facts);
        Raw(json, "leftStanding", LeftStanding);
        json.WriteString("block", Block);
        Number(json, "restates", Restates);
        json.WriteString("reason", Reason);
        Number(json, "reopenedBy", ReopenedBy);
        json.WriteStartArray("lines");
        foreach (var line in Lines.OrderBy(l => l.Position))
            Write(json, line);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SealedLine line)
    {
        json.WriteStartObject();
        json.WriteNumber("position", line.Position);
        Number(json, "service", line.Service);
        Number(json, "goal", line.Goal);
        Number(json, "owner", line.Owner);
        Raw(json, "inputs", line.Inputs);
        Raw(json, "answer", line.Answer);
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, int? number)
    {
        if (number is { } known)
            json.WriteNumber(name, known);
        else
            json.WriteNull(name);
    }

    private static void Raw(Utf8JsonWriter json, string name, string value)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(value);
    }
}
