namespace TeamCircle.Data.Moves;

/// <summary>What a case manager does about a plan from elsewhere.</summary>
public sealed record MoveInActs(BeginMoveIn Begin, AddComparable Add, TakeBackComparable TakeBack, AskForRecords Ask, ReceiveRecords Receive, DecideMoveIn Decide);

/// <summary>What a case manager does about a learner who goes.</summary>
public sealed record MoveOutActs(BeginMoveOut Begin, TakeBackMoveOut TakeBack, WriteTransfer Write, MakeTransferFile Make, NoteSent Sent);
