using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>proportion</c>.</summary>
public sealed record ProportionCase(int Successes, int Trials, double Confidence)
{
    private const int Most = 1_000_000_000;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static ProportionCase Read(CaseField field)
    {
        field.Only("kind", "successes", "trials", "confidence");
        var (successes, trials) = (field.Get("successes").Number(0, Most), field.Get("trials").Number(0, Most));
        return successes <= trials ? new(successes, trials, field.Confidence()) : throw field.Get("successes").Wrong("must not be more than trials");
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var share = Proportion.Of(Successes, Trials, Confidence);
        json.WriteStartObject();
        json.WriteFigures(("value", share.Value), ("low", share.Low), ("high", share.High));
        json.WriteEndObject();
    }
}
