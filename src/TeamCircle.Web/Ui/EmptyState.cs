namespace TeamCircle.Web.Ui;

/// <summary>What stands where a list has nothing in it: why, and the next act.</summary>
/// <param name="Words">One or two sentences.</param>
/// <param name="Act">The words of the next act's link; null where there is nothing to do.</param>
/// <param name="Address">Where it leads.</param>
public sealed record EmptyState(string Words, string? Act = null, string? Address = null);
