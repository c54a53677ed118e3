namespace TeamCircle.Core.Import;

/// <summary>Goes through the rows of one table: what its header lacks, which columns nobody knows, which keys come twice.</summary>
internal sealed class TableReader
{
    private readonly RawTable _table;
    private readonly Findings _findings;
    private readonly FileShape _shape;
    private readonly Dictionary<string, int> _columns = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<string, int> _keys = new(StringComparer.OrdinalIgnoreCase);
    private bool _readable = true;

    public TableReader(RawTable table, Findings findings)
    {
        (_table, _findings, _shape) = (table, findings, FileShape.Of(table.Kind));
        ReadHeader();
    }

    /// <summary>The rows that can be read, in file order; none where the header lacks a column.</summary>
    public IEnumerable<RowCells> Rows()
    {
        foreach (var row in _readable ? _table.Rows : [])
        {
            var cells = new RowCells(_table, _columns, row, _findings);
            if (row.Fault is not null)
                cells.Refuse("", row.Fault);
            else if (row.Cells.Skip(_table.Header.Count).Any(c => !string.IsNullOrWhiteSpace(c)))
                cells.Refuse("", "This row has more cells than the header. Put cells that hold a comma or semicolon in quotation marks.");
            else
                yield return cells;
        }
    }

    /// <summary>Refuses a row whose key stood in an earlier good row of this file. Ask last, when the row's other cells are checked.</summary>
    /// <returns>True where it is the first.</returns>
    public bool IsFirst(RowCells row, string column, string what, params string[] key)
    {
        var joined = string.Join('\n', key);
        if (_keys.TryGetValue(joined, out var first))
            row.Refuse(column, $"{what} twice in this file: first on line {first}.");
        else if (row.IsGood)
            _keys[joined] = row.Line; // a bad row is in nobody's way
        return first == 0;
    }

    private void ReadHeader()
    {
        if (_table.HeaderLine == 0)
        {
            _findings.Refuse(new(_table.File, 1, "", "This file is empty: its first line must name the columns."));
            _readable = false;
            return;
        }
        for (var i = 0; i < _table.Header.Count; i++)
            ReadName(_table.Header[i].Trim(), i);
        foreach (var column in _shape.Required.Where(c => !_columns.ContainsKey(c)))
        {
            _findings.Refuse(new(_table.File, _table.HeaderLine, column, $"The column '{column}' is missing."));
            _readable = false;
        }
    }

    private void ReadName(string name, int index)
    {
        if (name.Length == 0)
            return;
        if (!_shape.Knows(name))
        {
            _findings.Note(new(_table.File, _table.HeaderLine, name, "This column is not known here and was passed over."));
        }
        else if (!_columns.TryAdd(name, index))
        {
            _findings.Refuse(new(_table.File, _table.HeaderLine, name, "This column stands twice in the header."));
            _readable = false;
        }
    }
}
