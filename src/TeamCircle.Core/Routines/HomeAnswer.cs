namespace TeamCircle.Core.Routines;

/// <summary>What the people at home say about a routine on a day. None is better than another, and nothing is ever counted from them.</summary>
public enum HomeAnswer
{
    Done,
    NotUpToIt,
    Skipped,
}
