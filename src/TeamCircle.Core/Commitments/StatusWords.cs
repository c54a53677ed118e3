using TeamCircle.Core.Guide;

namespace TeamCircle.Core.Commitments;

/// <summary>The words of a status that staff read, on pages, in files and at the terminal.</summary>
public static class StatusWords
{
    public static string Of(Status status) => Glossary.Of(status).Staff;
}
