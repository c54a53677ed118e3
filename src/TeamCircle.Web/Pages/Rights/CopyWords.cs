using System.Text.Json;

namespace TeamCircle.Web.Pages.Rights;

/// <summary>What stands in a cell of a copy, for a reader who is no program.</summary>
internal static class CopyWords
{
    /// <summary>Yes and no, nothing for an empty list, and what is stored as JSON line by line; all else as it is.</summary>
    public static string Of(string cell)
    {
        if (cell is "true" or "false")
            return cell == "true" ? "yes" : "no";
        if (cell is "{}" or "[]" || cell.Length < 2 || cell[0] is not ('{' or '['))
            return cell is "{}" or "[]" ? "" : cell;
        try
        {
            using var json = JsonDocument.Parse(cell);
            return Of(json.RootElement);
        }
        catch (JsonException)
        {
            return cell; // somebody's own words in brackets, or a list of the database
        }
    }

    private static string Of(JsonElement json) => json.ValueKind switch
    {
        JsonValueKind.Object => string.Join("; ", json.EnumerateObject().Select(p => (p.Name, Words: Of(p.Value))).Where(p => p.Words.Length > 0).Select(p => $"{p.Name}: {p.Words}")),
        JsonValueKind.Array => string.Join(", ", json.EnumerateArray().Select(Of).Where(w => w.Length > 0)),
        JsonValueKind.String => json.GetString()!,
        JsonValueKind.Null => "",
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        _ => json.GetRawText(),
    };
}
