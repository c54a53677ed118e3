using System.Globalization;
using TeamCircle.Core.Papers;

namespace TeamCircle.Data.Papers;

/// <summary>Which paper: a report, a statement, a pack by its id; an evaluation or a notice by what it is about.</summary>
public sealed record PaperPlace(PaperKind Kind, int? Id = null)
{
    /// <summary>As a form sends it: Report:12, PriorNotice.</summary>
    public string Value => Id is { } id ? string.Create(CultureInfo.InvariantCulture, $"{Kind}:{id}") : $"{Kind}";

    /// <summary>Whether the portal has the paper itself, and so knows it by an id.</summary>
    public static bool IsKnown(PaperKind kind) => kind is PaperKind.Report or PaperKind.Statement or PaperKind.MeetingPack;

    /// <summary>Null for anything that <see cref="Value"/> does not make.</summary>
    public static PaperPlace? Read(string? value)
    {
        var parts = (value ?? "").Split(':');
        if (!Enum.TryParse<PaperKind>(parts[0], out var kind) || !Enum.IsDefined(kind) || parts.Length != (IsKnown(kind) ? 2 : 1))
            return null;
        if (parts.Length == 1)
            return new(kind);
        return int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? new(kind, id) : null;
    }
}
