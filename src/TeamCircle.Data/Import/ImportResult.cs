using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>What an import did, or why it did nothing.</summary>
/// <param name="AgencyCode">The agency that was written to.</param>
/// <param name="Stored">Whether anything was stored; false also where everything was known already.</param>
/// <param name="Files">In the order in which they were read.</param>
/// <param name="Refused">Files of the refused rows, to mend and bring again.</param>
public sealed record ImportResult(
    string AgencyCode, bool Stored, IReadOnlyList<FileCount> Files, IReadOnlyList<FileProblem> Problems, IReadOnlyList<FileNote> Notes,
    IReadOnlyList<ClosureLine> ClosuresFromEvents, IReadOnlyList<RefusedFile> Refused);

/// <summary>The rows of one file. New, changed and known ones add up to the good ones.</summary>
public sealed record FileCount(string File, string Sha256, int Rows, int Added, int Changed, int Known, int Refused);

/// <summary>The refused rows of one file, with a column that says why.</summary>
public sealed record RefusedFile(string Name, string Text);

/// <summary>How far an import has come.</summary>
/// <param name="Step">What is being done, in words.</param>
/// <param name="Done">Steps done.</param>
/// <param name="Of">All steps.</param>
public sealed record ImportProgress(string Step, int Done, int Of);
