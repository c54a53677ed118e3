using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Progress;

/// <summary>A case of kind <c>trend</c>.</summary>
public sealed record TrendCase(IReadOnlyList<decimal> X, IReadOnlyList<decimal> Y, double Confidence)
{
    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static TrendCase Read(CaseField field)
    {
        field.Only("kind", "x", "y", "confidence");
        var x = field.Get("x").List(1, SeriesCase.Most, value => value.Decimal());
        var y = field.Get("y").List(1, SeriesCase.Most, value => value.Decimal());
        return x.Count == y.Count ? new(x, y, field.Confidence()) : throw field.Get("y").Wrong("must hold as many values as x");
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var (line, test, squares) = Trend.Of(X, Y, Confidence);
        json.WriteStartObject();
        json.Write("theilSen", ("slope", line.Slope), ("intercept", line.Intercept), ("low", line.Low), ("high", line.High));
        json.WriteStartObject("mannKendall");
        json.WriteNumber("s", test.S);
        json.WriteNumber("variance", test.Variance);
        json.WriteFigures(("z", test.Z), ("p", test.P), ("tauB", test.TauB));
        json.WriteEndObject();
        json.Write("ols", ("slope", squares.Slope), ("intercept", squares.Intercept), ("rSquared", squares.RSquared), ("slopeSe", squares.SlopeSe));
        json.WriteEndObject();
    }
}
