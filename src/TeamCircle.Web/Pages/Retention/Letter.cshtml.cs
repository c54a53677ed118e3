using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Core.Retention;
using TeamCircle.Data.Retention;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Retention;

/// <summary>What a family is told before a part of the record is destroyed, in both languages, to print.</summary>
public sealed class LetterModel(CurrentCaller caller, ReadRetention read) : PageModel
{
    public LearnerRetentionPage Shown { get; private set; } = null!;

    /// <summary>What a rule proposes and nobody has agreed to yet.</summary>
    public IReadOnlyList<DestructionShown> Planned { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await read.OfLearnerAsync(caller.Value, id, stop) is not { } page)
            return NotFound();
        (Shown, Planned) = (page, [.. page.All.Where(d => d.AskedBy is null && d.Stage is DestructionStage.Proposed or DestructionStage.Waits or DestructionStage.Ready)]);
        return Page();
    }

    /// <summary>Which part, up to when, and not before when.</summary>
    public static string Line(DestructionShown d, Language language)
    {
        var dates = new FamilyDates(language);
        var part = FamilyGlossary.PartsOfRecord[(int)d.Kind].In(language);
        var upTo = dates.Date(d.UpTo);
        return d.WaitUntil is { } until
            ? FamilyGlossary.DestroyPart.In(language, part, upTo, dates.Date(until))
            : FamilyGlossary.DestroyPartUntold.In(language, part, upTo, FamilyDates.Number(d.NoticeDays));
    }
}
