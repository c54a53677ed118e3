using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>Answers with the lines of an audit as a file: all that were asked for, not one screen.</summary>
public sealed class AuditFile(Audit audit, IReadOnlyList<AuditRow> rows, SheetKind kind) : SheetFile(kind)
{
    protected override string Name => $"audit-{audit.Period.StartDay:uuuu-MM-dd}-as-of-{audit.AsOf:uuuu-MM-dd}";

    protected override string Sheet => "Audit";

    protected override IReadOnlyList<string> Heads => AuditSheet.Heads;

    protected override IEnumerable<IEnumerable<object?>> Rows => rows.Select(r => r.Line).Distinct().Select(i => AuditSheet.Cells(audit, audit.Lines[i]));
}
