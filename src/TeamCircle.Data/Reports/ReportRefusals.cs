using TeamCircle.Core;

namespace TeamCircle.Data.Reports;

/// <summary>What more than one act answers about a report that changes no more.</summary>
internal static class ReportRefusals
{
    public static readonly Problem Finished = new("", "This report is finished and signed. Correct it with a reason; that begins another edition.");
}
