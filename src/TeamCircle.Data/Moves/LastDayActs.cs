namespace TeamCircle.Data.Moves;

/// <summary>What an administrator does with a last day.</summary>
public sealed record LastDayActs(SetLastDay Set, TakeBackLastDay TakeBack, FinishHandOver Finish);

/// <summary>What a case manager does with one learner of somebody who leaves.</summary>
public sealed record HandOverActs(HandOverLearner HandOver, UndoHandOver Undo, FileItem File);
