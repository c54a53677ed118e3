using System.Globalization;
using TeamCircle.Core.Family;
using TeamCircle.Core.Routines;

namespace TeamCircle.Web.Pages.Family;

/// <summary>What staff read about summaries and remarks.</summary>
internal static class SummaryWords
{
    public static string Of(SummaryState state) => state switch
    {
        SummaryState.Draft => "draft",
        SummaryState.Published => "published",
        SummaryState.Withdrawn => "withdrawn",
        _ => "replaced",
    };

    public static string Of(RemarkKind kind) => kind switch
    {
        RemarkKind.Away => "they will be away",
        RemarkKind.Changed => "something has changed",
        RemarkKind.NotAsRemembered => "a visit was not how they remember it",
        RemarkKind.Signal => "a signal of the child's",
        RemarkKind.ForMeeting => "what they want said at the next meeting",
        _ => "something else",
    };

    /// <summary>The kinds as the family reads them.</summary>
    public static Phrase ToFamily(RemarkKind kind) => kind switch
    {
        RemarkKind.Away => FamilyGlossary.KindAway,
        RemarkKind.Changed => FamilyGlossary.KindChanged,
        RemarkKind.NotAsRemembered => FamilyGlossary.KindNotAsRemembered,
        RemarkKind.Signal => FamilyGlossary.KindSignal,
        RemarkKind.ForMeeting => FamilyGlossary.KindForMeeting,
        _ => FamilyGlossary.KindOther,
    };

    /// <summary>What a family taps.</summary>
    public static Phrase ToFamily(HomeAnswer answer) => answer switch
    {
        HomeAnswer.Done => FamilyGlossary.HomeDone,
        HomeAnswer.NotUpToIt => FamilyGlossary.HomeNotUpToIt,
        _ => FamilyGlossary.HomeSkipped,
    };

    /// <summary>6.4</summary>
    public static string Grade(double grade) => Math.Round(grade, 1, MidpointRounding.AwayFromZero).ToString("0.0", CultureInfo.InvariantCulture);
}
