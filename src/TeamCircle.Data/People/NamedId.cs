namespace TeamCircle.Data.People;

/// <summary>A person to choose from a list.</summary>
public sealed record NamedId(int Id, string Name);
