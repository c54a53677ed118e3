namespace TeamCircle.Core.Learners;

/// <summary>What holds for a learner's own row.</summary>
public static class LearnerRules
{
    private const int LongestCode = 20;

    /// <summary>Of the sending district's name, in letters.</summary>
    public const int LongestDistrict = 120;

    public static IEnumerable<Problem> Check(string? code, string? name, int? mostMinutesADay, string? sendingDistrict)
    {
        if (string.IsNullOrWhiteSpace(code) || code.Trim().Length > LongestCode)
            yield return new("Code", "Give a short code of at most 20 letters or figures. It stands where the name must not.");
        if (string.IsNullOrWhiteSpace(name))
            yield return new("Name", "Give the learner's name.");
        if (mostMinutesADay is not (>= 1 and <= 1440))
            yield return new("MostMinutesADay", "Give how many minutes a day the learner can be taught, over all services.");
        if (sendingDistrict?.Trim().Length > LongestDistrict)
            yield return new("SendingDistrict", $"Give the district's name in at most {LongestDistrict} letters.");
    }
}
