namespace TeamCircle.Core.Import;

/// <summary>Why a row cannot be stored.</summary>
/// <param name="File">The file's name.</param>
/// <param name="Line">The physical line on which the row starts; the first line of the file is 1.</param>
/// <param name="Column">The column's name; empty where the row or the file as a whole is meant.</param>
/// <param name="Reason">A sentence in a clerk's words.</param>
public sealed record FileProblem(string File, int Line, string Column, string Reason);

/// <summary>Something a person should look at; the row is stored all the same.</summary>
/// <inheritdoc cref="FileProblem"/>
public sealed record FileNote(string File, int Line, string Column, string Text)
{
    /// <summary>Characters; longer names are cut.</summary>
    public const int LongestColumn = 60;

    /// <summary>As the file names it, cut where it is longer than any name: a file of one endless line would be shown whole.</summary>
    public string Column { get; } = Column.Length <= LongestColumn ? Column : $"{Column[..LongestColumn]}…";
}
