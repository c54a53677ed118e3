using System.Globalization;
using System.Text.Json;
using NodaTime.Text;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Cases;

/// <summary>One field of a case file, with its place in the file. Reading is strict: what is missing, unknown or of the
/// wrong kind ends in a <see cref="CaseException"/> that names it.</summary>
public readonly struct CaseField
{
    private const decimal Largest = 1_000_000_000_000;

    private readonly JsonElement _json;

    private CaseField(string path, JsonElement json) => (Path, _json) = (path, json);

    /// <summary>Where it is, such as <c>case.line.from</c>; "file" for the whole.</summary>
    public string Path { get; }

    public bool IsList => _json.ValueKind == JsonValueKind.Array;

    public bool IsText => _json.ValueKind == JsonValueKind.String;

    /// <summary>Reads a JSON text; a name that stands twice in one object is refused.</summary>
    /// <exception cref="CaseException">The text is not JSON.</exception>
    public static CaseField Parse(string json)
    {
        try
        {
            using var document = JsonDocument.Parse(json, new JsonDocumentOptions { AllowDuplicateProperties = false });
            return new("file", document.RootElement.Clone());
        }
        catch (JsonException wrong)
        {
            var place = wrong.LineNumber is { } line ? $" (line {line + 1})" : "";
            throw new CaseException("file", $"is not JSON, or a name stands twice in one place{place}");
        }
        catch (InvalidOperationException)
        {
            throw new CaseException("file", "has a name that holds half a character"); // a lone surrogate in a name
        }
    }

    /// <summary>The field of this name.</summary>
    public CaseField Get(string name) => Find(name) ?? throw new CaseException(Below(name), "is missing");

    /// <summary>The field of this name, or null where it is left out or null.</summary>
    public CaseField? Find(string name) =>
        Object().TryGetProperty(name, out var found) && found.ValueKind != JsonValueKind.Null ? new(Below(name), found) : null;

    /// <summary>The field of this name, which must stand there but may be null.</summary>
    public CaseField? GetOrNull(string name) =>
        Object().TryGetProperty(name, out var found) && found.ValueKind == JsonValueKind.Null ? null : Get(name);

    public bool Has(string name) => _json.ValueKind == JsonValueKind.Object && _json.TryGetProperty(name, out _);

    /// <summary>Refuses any field of another name.</summary>
    public CaseField Only(params ReadOnlySpan<string> names)
    {
        foreach (var property in Object().EnumerateObject())
        {
            if (!names.Contains(property.Name))
                throw new CaseException(Below(property.Name), "is not known here");
        }
        return this;
    }

    public List<T> List<T>(Func<CaseField, T> read)
    {
        if (!IsList)
            throw Wrong("must be a list");
        var (path, items) = (Path == "file" ? "" : Path, new List<T>());
        foreach (var item in _json.EnumerateArray())
            items.Add(read(new(path + "[" + items.Count.ToString(CultureInfo.InvariantCulture) + "]", item)));
        return items;
    }

    /// <summary>A whole number from <paramref name="least"/> to <paramref name="most"/>.</summary>
    public int Number(int least, int most)
    {
        if (_json.ValueKind != JsonValueKind.Number || !_json.TryGetInt32(out var number))
            throw Wrong("must be a whole number");
        return number >= least && number <= most
            ? number
            : throw Wrong(string.Create(CultureInfo.InvariantCulture, $"must be from {least} to {most}, not {number}"));
    }

    /// <summary>A number with or without decimals, from <paramref name="least"/> to <paramref name="most"/>, kept to the last of its 28 digits.</summary>
    public decimal Decimal(decimal least = -Largest, decimal most = Largest)
    {
        if (_json.ValueKind != JsonValueKind.Number || !_json.TryGetDecimal(out var number))
            throw Wrong("must be a number");
        return number >= least && number <= most
            ? number
            : throw Wrong(string.Create(CultureInfo.InvariantCulture, $"must be from {least} to {most}, not {number}"));
    }

    /// <summary>true or false.</summary>
    public bool Flag() => _json.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => throw Wrong("must be true or false"),
    };

    /// <summary>A day number, from a date of the years 1900 to 2199 written as 2026-08-17.</summary>
    public int Date()
    {
        var read = LocalDatePattern.Iso.Parse(Text("must be a date such as 2026-08-17"));
        if (!read.Success)
            throw Wrong("must be a date such as 2026-08-17");
        return read.Value.Year is >= 1900 and < 2200 ? Day.Of(read.Value) : throw Wrong("must be a date of the years 1900 to 2199");
    }

    /// <summary>Two dates, the second not before the first.</summary>
    public DateRange Dates(string first, string last)
    {
        var dates = new DateRange(Get(first).Date(), Get(last).Date());
        return dates.IsEmpty ? throw Get(last).Wrong($"must not be before {first}") : dates;
    }

    /// <summary>One of some words, written exactly so.</summary>
    public T OneOf<T>(params ReadOnlySpan<(string Word, T Value)> choices)
    {
        var words = "must be one of " + string.Join(", ", choices.ToArray().Select(c => c.Word));
        var text = Text(words);
        foreach (var (word, value) in choices)
        {
            if (word == text)
                return value;
        }
        throw Wrong(words);
    }

    public string Text(string otherwise = "must be text")
    {
        if (_json.ValueKind != JsonValueKind.String)
            throw Wrong(otherwise);
        try
        {
            return _json.GetString()!;
        }
        catch (InvalidOperationException)
        {
            throw Wrong("holds half a character"); // a lone surrogate passes the parser and fails here
        }
    }

    public CaseException Wrong(string sentence) => new(Path, sentence);

    private JsonElement Object() => _json.ValueKind == JsonValueKind.Object ? _json : throw Wrong("must be an object");

    private string Below(string name) => Path == "file" ? name : Path + "." + name;
}
