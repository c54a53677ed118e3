namespace TeamCircle.Data.Rights;

/// <summary>What can come before or follow the answer to a request.</summary>
public sealed record RequestTurns(NoteHearing Hearing, AddStatement Statement, CopyRecord Copy, ReadCopy Read);
