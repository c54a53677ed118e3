using System.Text.Json;

namespace TeamCircle.Core.Practice;

/// <summary>A practice as JSON. Times within it are whole milliseconds; a fraction is refused.</summary>
public static class PracticeJson
{
    /// <exception cref="JsonException">The text is no practice; its message names the place.</exception>
    public static PracticeRecord Read(string json)
    {
        var record = JsonSerializer.Deserialize<PracticeRecord>(json, StrictJson.Options) ?? throw new JsonException("There is nothing in it.");
        return Lists(record).All(list => list.All(one => one is not null)) ? record : throw new JsonException("There is nothing at a place in a list.");
    }

    public static string Write(PracticeRecord record) => JsonSerializer.Serialize(record, StrictJson.Options);

    private static IEnumerable<IEnumerable<object?>> Lists(PracticeRecord record)
    {
        yield return record.Trials;
        yield return record.Trials.SelectMany(t => t.Events);
        yield return record.Steps;
        yield return record.Stops;
        yield return record.Filled;
    }
}
