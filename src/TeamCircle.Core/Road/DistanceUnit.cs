namespace TeamCircle.Core.Road;

/// <summary>In what an agency writes distances. Stored values are tenths of it, and are never converted.</summary>
public enum DistanceUnit
{
    Mile,
    Kilometre,
}
