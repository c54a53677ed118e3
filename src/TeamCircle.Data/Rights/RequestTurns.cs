namespace TeamCircle.Data.Rights;

/// <summary>What can follow the answer to a request.</summary>
public sealed record RequestTurns(NoteHearing Hearing, AddStatement Statement);
