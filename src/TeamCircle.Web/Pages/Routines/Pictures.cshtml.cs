using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Routines;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Routines;

/// <summary>The pictures of a routine: added, taken off its card, put back.</summary>
[RequestSizeLimit(MostBytes)]
[RequestFormLimits(MultipartBodyLengthLimit = MostBytes)]
public sealed class PicturesModel(CurrentCaller caller, ReadRoutine read, AddPicture add, RemovePicture remove) : PageModel
{
    /// <summary>More than a picture may have, so that one that is too large is refused in words and what was typed stays.</summary>
    private const long MostBytes = 5L * CleanPicture.MostBytes;

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public PictureKind Kind { get; set; }

    [BindProperty]
    public string? Words { get; set; }

    [BindProperty]
    public IFormFile? Sent { get; set; }

    public RoutinePage Shown { get; private set; } = null!;

    /// <summary>The picture that was removed last, so that it can be put back; null where none was just now.</summary>
    [TempData]
    public int? Removed { get; set; }

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var input = new AddPicture.Input { Routine = id, Kind = Kind, Words = Words, Sent = await SentAsync(stop) };
        var outcome = ModelState.IsValid ? await add.RunAsync(caller.Value, Operation, input, stop) : null;
        return outcome?.Value is not null ? Saved(id, "The picture is on the card.") : await AgainAsync(id, outcome?.Problems ?? [], stop);
    }

    public async Task<IActionResult> OnPostRemoveAsync(int id, int picture, bool back, CancellationToken stop)
    {
        var outcome = await remove.RunAsync(caller.Value, Operation, new(id, picture, back), stop);
        if (outcome.Value is null)
            return await AgainAsync(id, outcome.Problems, stop);
        Removed = back ? null : picture;
        return Saved(id, back ? "The picture is on the card again." : "The picture is taken off the card.");
    }

    private async Task<byte[]?> SentAsync(CancellationToken stop)
    {
        if (Sent?.Length > CleanPicture.MostBytes)
            ModelState.AddModelError(nameof(Sent), AddPicture.TooLarge);
        if (Sent is null || Sent.Length > CleanPicture.MostBytes)
            return null;
        using var bytes = new MemoryStream();
        await Sent.CopyToAsync(bytes, stop);
        return bytes.ToArray();
    }

    private RedirectResult Saved(int id, string words)
    {
        TempData["Done"] = words;
        return Redirect($"/routines/{id}/pictures");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, CancellationToken stop) =>
        await LoadAsync(id, stop) ? this.Refuse(problems, "") : NotFound();

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, null, stop))!;
        return Shown is { MayWrite: true };
    }
}
