namespace TeamCircle.Core.Family;

/// <summary>The languages of the family's page.</summary>
public enum Language
{
    English,
    Spanish,
}
