using System.Text.Json;

namespace TeamCircle.Core.Cases;

/// <summary>How statistics stand in an answer: as numbers, or as null with a <c>why</c> beside them in the same object.</summary>
internal static class CaseFigures
{
    /// <summary>An object of figures.</summary>
    public static void Write(this Utf8JsonWriter json, string name, params ReadOnlySpan<(string Name, Figure Figure)> figures)
    {
        json.WriteStartObject(name);
        json.WriteFigures(figures);
        json.WriteEndObject();
    }

    /// <summary>Figures as fields of the object that is open; its last fields, since it has one <c>why</c>.</summary>
    public static void WriteFigures(this Utf8JsonWriter json, params ReadOnlySpan<(string Name, Figure Figure)> figures)
    {
        var missing = new List<(string Name, string Why)>();
        foreach (var (name, figure) in figures)
        {
            if (figure.Value is { } value)
                json.WriteNumber(name, value);
            else
                json.WriteNull(name);
            if (figure.Why is { } why)
                missing.Add((name, why));
        }
        if (missing.Count > 0)
            json.WriteString("why", string.Join("; ", missing.GroupBy(m => m.Why).Select(g => $"{string.Join(", ", g.Select(m => m.Name))}: {g.Key}")));
    }

    /// <summary>How sure an interval is to be, between 0 and 1; 0.95 where the case does not say.</summary>
    public static double Confidence(this CaseField field)
    {
        if (field.Find("confidence") is not { } given)
            return Progress.Confidence.Usual;
        return given.Decimal() is > 0 and < 1 and var confidence ? (double)confidence : throw given.Wrong("must lie between 0 and 1");
    }

    /// <summary>A list of <paramref name="least"/> to <paramref name="most"/> items.</summary>
    public static List<T> List<T>(this CaseField field, int least, int most, Func<CaseField, T> read)
    {
        var items = field.List(read);
        return items.Count >= least && items.Count <= most
            ? items
            : throw field.Wrong(items.Count < least ? $"needs {least} or more" : $"holds more than {most}");
    }
}
