namespace TeamCircle.Data.Family;

/// <summary>What can become of a published summary.</summary>
public sealed record SummaryTurns(TakeBackSummary TakeBack, CorrectSummary Correct);
