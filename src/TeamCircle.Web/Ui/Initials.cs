namespace TeamCircle.Web.Ui;

/// <summary>Short signs for people on a chart.</summary>
public static class Initials
{
    /// <summary>The first letter of each name; where two people would share it, that of the last name too, and then a number.</summary>
    public static Dictionary<int, string> Of(IReadOnlyDictionary<int, string> names)
    {
        var short1 = names.ToDictionary(n => n.Key, n => First(n.Value));
        var short2 = names.ToDictionary(n => n.Key, n => IsAlone(short1, n.Key) ? short1[n.Key] : short1[n.Key] + First(n.Value.Split(' ')[^1]));
        return names.ToDictionary(n => n.Key, n => IsAlone(short2, n.Key)
            ? short2[n.Key] : $"{short2[n.Key]}{short2.Where(s => s.Value == short2[n.Key]).OrderBy(s => s.Key).ToList().FindIndex(s => s.Key == n.Key) + 1}");
    }

    private static bool IsAlone(Dictionary<int, string> signs, int person) => signs.Count(s => s.Value == signs[person]) == 1;

    private static string First(string name) => name.Length == 0 ? "?" : name[..1].ToUpperInvariant();
}
