namespace TeamCircle.Data.Retention;

/// <summary>What is done about a destruction, from the family's own request to the end.</summary>
public sealed record DestructionActs(AskDestruction Ask, TellFamily Tell, AgreeDestruction Agree, DestroyRecords Destroy, StopDestruction Stop);
