using TeamCircle.Core.Family;

namespace TeamCircle.Web.Pages.Family;

/// <summary>The head of one part of a family's page, with the button that reads the part aloud.</summary>
/// <param name="Note">A line under the heading; null: none.</param>
public sealed record FamilyPart(FamilySentences Words, string Heading, string? Note = null);
