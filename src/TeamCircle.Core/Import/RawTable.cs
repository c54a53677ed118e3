namespace TeamCircle.Core.Import;

/// <summary>One row as the file holds it.</summary>
/// <param name="Line">The physical line on which it starts; the first line of the file is 1.</param>
/// <param name="Cells">In the order of the header, not trimmed; may be fewer or more than the header has.</param>
/// <param name="Fault">What is wrong with its commas and quotation marks, or null.</param>
public sealed record RawRow(int Line, IReadOnlyList<string> Cells, string? Fault = null);

/// <summary>One table as the file holds it.</summary>
/// <param name="HeaderLine">The physical line of the header; 0 where the file is empty.</param>
/// <param name="Rows">In file order, without blank ones.</param>
public sealed record RawTable(FileKind Kind, string File, int HeaderLine, IReadOnlyList<string> Header, IReadOnlyList<RawRow> Rows);

/// <summary>One event of a calendar file.</summary>
/// <param name="Uid">Its own name in the file.</param>
/// <param name="Name">Its summary.</param>
/// <param name="Days">Its days, repeats included; empty where it does not last whole days.</param>
public sealed record RawEvent(int Line, string Uid, string Name, IReadOnlyList<NodaTime.LocalDate> Days);

/// <summary>A calendar file's events, in file order.</summary>
public sealed record RawCalendar(string File, IReadOnlyList<RawEvent> Events);

/// <summary>A text file as it is.</summary>
public sealed record RawText(string File, string Text);

/// <summary>Everything that was brought.</summary>
/// <param name="Tables">At most one of each kind, but for visits, of which there may be several.</param>
/// <param name="Calendars">Of these, the events that somebody chose to be closures.</param>
public sealed record Brought(RawText? Agency, IReadOnlyList<RawCalendar> Calendars, IReadOnlyList<RawTable> Tables);
