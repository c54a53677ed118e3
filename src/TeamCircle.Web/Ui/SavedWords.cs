using TeamCircle.Data.Progress;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Web.Ui;

/// <summary>The line that says what was saved, with what a person should know about it; no names.</summary>
public static class SavedWords
{
    public static string Of(Saved saved)
    {
        var group = saved.Sessions.Count > 1 ? $" for {Say.Number(saved.Sessions.Count)} learners" : "";
        return Join($"Saved{group}: {Say.Day(saved.OnDay)}, {Say.Times(saved.Start, saved.End)}. {Say.Minutes(saved.Credited)} counted.", saved.Notices);
    }

    public static string Of(SavedProbe saved) => Join("Saved.", saved.Notices);

    public static string Join(string saved, IReadOnlyList<string> notices) => string.Join(' ', [saved, .. notices]);
}
