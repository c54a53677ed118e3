using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Jobs;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Settings;

/// <summary>The last run of each job, its result, and when it comes next.</summary>
public sealed class JobsModel(CurrentCaller caller, ReadRuns read) : PageModel
{
    private RunsPage _runs = null!;

    public LocalDateTime Now => _runs.Now;

    public async Task OnGetAsync(CancellationToken stop) => _runs = await read.LastAsync(caller.Scope, stop);

    public JobShown? Last(Job job) => _runs.Last.FirstOrDefault(r => r.Job == job);

    public string Next(Job job) => MailWords.Next(job, Now, Last(job) is { Failed: false } last && last.At.Date == Now.Date);
}
