using NodaTime;

namespace TeamCircle.Core.Moves;

/// <summary>Where a plan stands with which a learner came (34 CFR 300.323(e), (f)).</summary>
public enum MoveInStatus
{
    /// <summary>Services comparable to those of the plan from elsewhere are given.</summary>
    Comparable,

    /// <summary>The agency took that plan for its own. In another state's case there is no such way: a new plan is written.</summary>
    Adopted,

    /// <summary>A plan of our own is in force.</summary>
    Replaced,
}

/// <summary>On what a file for a receiving agency rests.</summary>
public enum TransferGround
{
    /// <summary>The learner seeks or intends to enroll there, or is enrolled already (34 CFR 99.31(a)(2), 300.323(g)(2)).</summary>
    Enrolling,

    /// <summary>The parent's written consent (34 CFR 99.30).</summary>
    Consent,
}

/// <summary>Learners who come with a plan from elsewhere, and learners who go.</summary>
public static class MoveRules
{
    public const int LongestName = 200, LongestWords = 4000;

    /// <summary>Days after a learner's last day up to which the team still reads the record, unless somebody says otherwise: our choice.</summary>
    public const int UsualDaysToRead = 30;

    /// <summary>All problems of how a learner came.</summary>
    public static IEnumerable<Problem> CheckIn(string? fromWhere, LocalDate? firstDay)
    {
        if (!IsShort(fromWhere))
            yield return new("FromWhere", $"Say in under {LongestName} letters where the learner comes from.");
        if (firstDay is null)
            yield return new("FirstDay", "Give the first day here.");
    }

    /// <summary>All problems of the other plan's words about one service.</summary>
    public static IEnumerable<Problem> CheckService(string? words)
    {
        if (!IsLong(words))
            yield return new("Words", $"Copy what the other plan says, in under {LongestWords} letters.");
    }

    /// <summary>All problems of records that were asked for.</summary>
    public static IEnumerable<Problem> CheckAsked(string? what, string? ofWhom, LocalDate? askedOn, LocalDate today)
    {
        if (!IsShort(what))
            yield return new("What", $"Say in under {LongestName} letters what was asked for.");
        if (!IsShort(ofWhom))
            yield return new("OfWhom", $"Say in under {LongestName} letters who was asked, and how.");
        if (askedOn is not { } day || day > today)
            yield return new("AskedOn", "Give the day on which it was asked for; it cannot be later than today.");
    }

    /// <summary>All problems of what became of the plan from elsewhere.</summary>
    public static IEnumerable<Problem> CheckOutcome(MoveInStatus? status, bool fromOtherState, LocalDate? on, LocalDate firstDay, string? words)
    {
        if (status is not (MoveInStatus.Adopted or MoveInStatus.Replaced))
            yield return new("Status", "Choose what became of the plan.");
        if (status == MoveInStatus.Adopted && fromOtherState)
            yield return new("Status", "A plan from another state is not adopted: a new one is written, after an evaluation where the agency finds one necessary (34 CFR 300.323(f)).");
        if (on is not { } day || day < firstDay)
            yield return new("DecidedOn", "Give the day from which that holds, on or after the first day here.");
        if (!IsLong(words))
            yield return new("DecidedWords", $"Say in under {LongestWords} letters how it was decided, and with whom.");
    }

    /// <summary>All problems of how a learner goes.</summary>
    public static IEnumerable<Problem> CheckOut(LocalDate? lastDay, string? toWhere, TransferGround? ground, string? groundWords, LocalDate? readUntil)
    {
        if (lastDay is null)
            yield return new("LastDay", "Give the last day here.");
        if (!IsShort(toWhere))
            yield return new("ToWhere", $"Say in under {LongestName} letters where the learner goes.");
        if (ground is null)
            yield return new("Ground", "Choose on what the file rests.");
        if (!IsShort(groundWords))
            yield return new("GroundWords", $"Say in under {LongestName} letters which paper or notice says so.");
        if (readUntil < lastDay)
            yield return new("ReadUntil", "The team reads the record at least up to the last day.");
    }

    /// <summary>All problems of the two fields that the team writes.</summary>
    public static IEnumerable<Problem> CheckWriting(string? works, string? worksNot)
    {
        if (!IsLong(works))
            yield return new("Works", $"Say in under {LongestWords} letters what works.");
        if (worksNot?.Trim().Length > LongestWords)
            yield return new("WorksNot", $"Keep it under {LongestWords} letters.");
    }

    /// <summary>All problems of how a file was sent.</summary>
    public static IEnumerable<Problem> CheckSent(LocalDate? on, string? to, string? how, LocalDate madeOn, LocalDate today)
    {
        if (on is not { } day || day < madeOn || day > today)
            yield return new("SentOn", "Give the day on which it was sent, between its making and today.");
        if (!IsShort(to))
            yield return new("SentTo", $"Say in under {LongestName} letters to whom.");
        if (!IsShort(how))
            yield return new("SentHow", $"Say in under {LongestName} letters how.");
    }

    private static bool IsShort(string? text) => text?.Trim().Length is > 0 and <= LongestName;

    private static bool IsLong(string? text) => text?.Trim().Length is > 0 and <= LongestWords;
}
