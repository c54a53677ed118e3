namespace TeamCircle.Core.Import;

/// <summary>Cells that a spreadsheet program would run if they were written as they are.</summary>
public static class SpreadsheetCell
{
    /// <summary>Whether a text cell starts with a sign that makes a spreadsheet take it for a formula.</summary>
    public static bool WouldRun(ReadOnlySpan<char> text) => text.Length > 0 && text[0] is '=' or '+' or '-' or '@' or '\t' or '\r';

    /// <summary>The text as exports write it: one that would run is marked with an apostrophe, which reading takes away again.</summary>
    public static string Safe(string text) => WouldRun(text) ? "'" + text : text;
}
