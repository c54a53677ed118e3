using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Learners;

/// <summary>Writes one part of "How we teach". Who loses a race sees both versions, and saving again is then a choice.</summary>
public sealed class TeachModel(CurrentCaller caller, EditTeachPart edit) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public EditTeachPart.Input Input { get; set; } = new();

    public EditTeachPart.Current Current { get; private set; } = null!;

    /// <summary>Whether somebody else saved this part while it was typed.</summary>
    public bool IsOvertaken { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, TeachPart part, CancellationToken stop)
    {
        if (IsNoPart || await edit.StartAsync(caller.Value, id, part, stop) is not { } current)
            return NotFound();
        Current = current;
        Input = new EditTeachPart.Input { Text = current.Text, Version = current.Version };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, TeachPart part, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await edit.RunAsync(caller.Value, Operation, id, part, Input, stop) : null;
        if (outcome?.Value is not null)
        {
            TempData["Done"] = $"Saved: {Say.Part(part)}.";
            return Redirect($"/learners/{id}#{part}");
        }
        if (IsNoPart || await edit.StartAsync(caller.Value, id, part, stop) is not { } current)
            return NotFound();
        Current = current;
        IsOvertaken = outcome?.Problems.Any(p => p.Field == Problem.VersionField) == true;
        ModelState.AddProblems([.. (outcome?.Problems ?? []).Where(p => p.Field != Problem.VersionField)], nameof(Input));
        return IsOvertaken ? ShowBoth() : Page();
    }

    private bool IsNoPart => ModelState.GetFieldValidationState("part") == ModelValidationState.Invalid;

    private PageResult ShowBoth()
    {
        ModelState.Remove($"{nameof(Input)}.{nameof(Input.Version)}");
        Input = Input with { Version = Current.Version };
        var page = Page();
        page.StatusCode = StatusCodes.Status409Conflict;
        return page;
    }
}
