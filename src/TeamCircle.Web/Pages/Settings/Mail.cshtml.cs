using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Mail;
using TeamCircle.Web.Mail;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Settings;

/// <summary>How mails go, what did not go, and a test.</summary>
public sealed class MailModel(CurrentCaller caller, ReadOutbox read, IMailTransport transport) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public OutboxPage Outbox { get; private set; } = null!;

    public string About => transport.About;

    /// <summary>What the mail server said to the test; null where none was sent.</summary>
    public string? TestAnswer { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Outbox = await read.RunAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostTestAsync([FromServices] SendTest test, CancellationToken stop)
    {
        var answer = await test.RunAsync(caller.Value, transport.SendAsync, stop);
        TestAnswer = answer.Outcome is MailOutcome.Accepted ? $"Accepted. {answer.Words}" : $"Not sent. {answer.Words}";
        await OnGetAsync(stop);
        return Page();
    }

    public async Task<IActionResult> OnPostAgainAsync([FromServices] TryAgain again, CancellationToken stop)
    {
        var outcome = await again.RunAsync(caller.Value, Operation, stop);
        if (outcome.Value is { } done)
            TempData["Done"] = $"{Say.Count(done.Mails, "mail")} will be tried again.";
        return Redirect("/settings/mail");
    }
}
