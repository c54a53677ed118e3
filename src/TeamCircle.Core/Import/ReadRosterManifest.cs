namespace TeamCircle.Core.Import;

/// <summary>Reads what a OneRoster set says about itself: its version, and of each file whether it is whole, only changes, or absent.</summary>
internal sealed class ReadRosterManifest(RawTable table, IReadOnlyDictionary<FileKind, RawTable> came, Findings findings)
{
    private const string Version = "oneroster.version";
    private bool _whole = true;

    /// <summary>Whether the rest of the set can be read.</summary>
    public bool IsWhole()
    {
        var seen = new HashSet<string>();
        var reader = new TableReader(table, findings);
        foreach (var row in reader.Rows())
        {
            var (name, value) = (row.Cell("propertyName"), row.Cell("value"));
            seen.Add(name);
            if (name == Version && value is not ("1.2" or "1.2.0" or "1.2.1"))
                Refuse(row, $"This is a set of OneRoster {Short(value)}. Only version 1.2 is read: export the set in that version.");
            else if (FileShape.Roster.Skip(1).FirstOrDefault(f => PropertyOf(f) == name) is { } file)
                ReadFile(row, file, value);
        }
        if (!seen.Contains(Version))
            RefuseWhole(Version, "The manifest does not name the version of OneRoster, so nothing says what the columns mean.");
        foreach (var file in FileShape.Roster.Skip(1).Where(f => came.ContainsKey(f.Kind) && !seen.Contains(PropertyOf(f))))
            RefuseWhole(PropertyOf(file), $"The manifest does not say whether {file.FileName} holds the whole (bulk).");
        return _whole;
    }

    private static string PropertyOf(FileShape file) => "file." + Path.GetFileNameWithoutExtension(file.FileName);

    private void ReadFile(RowCells row, FileShape file, string value)
    {
        switch (value)
        {
            case "bulk" when !came.ContainsKey(file.Kind):
                Refuse(row, $"The manifest announces {file.FileName}, but it did not come.");
                break;
            case "absent" when came.ContainsKey(file.Kind):
                Refuse(row, $"The manifest says that {file.FileName} is absent, but it came.");
                break;
            case "delta":
                Refuse(row, $"{file.FileName} holds only what changed since another set (delta). Export the whole set (bulk).");
                break;
            case not ("bulk" or "absent"):
                Refuse(row, "This must be bulk, delta or absent.");
                break;
        }
    }

    private void Refuse(RowCells row, string reason)
    {
        row.Refuse("value", reason);
        _whole = false;
    }

    private void RefuseWhole(string name, string reason)
    {
        findings.Refuse(new(table.File, 1, name, reason));
        _whole = false;
    }

    private static string Short(string text) => text.Length == 0 ? "without a version" : text.Length <= 20 ? text : text[..20] + "...";
}
