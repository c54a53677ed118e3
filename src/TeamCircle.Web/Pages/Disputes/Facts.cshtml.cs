using System.Text;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Data.Disputes;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Disputes;

/// <summary>What was recorded of a learner between two days, in order: on the screen page by page, on paper and as a file all of it.</summary>
public sealed class FactsModel(CurrentCaller caller, ReadFactsInOrder read) : PageModel
{
    /// <summary>About as many visits as a page of the screen holds; a day is never cut.</summary>
    private const int VisitsAPage = 40;

    /// <summary>Where nobody says so, the days up to today.</summary>
    private const int UsualDays = 28;

    [BindProperty(SupportsGet = true)]
    public LocalDate? From { get; set; }

    [BindProperty(SupportsGet = true)]
    public LocalDate? To { get; set; }

    /// <summary>The page, from 1.</summary>
    [BindProperty(SupportsGet = true)]
    public int Number { get; set; } = 1;

    /// <summary>All days on one page.</summary>
    [BindProperty(SupportsGet = true)]
    public bool All { get; set; }

    public FactsInOrder Facts { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public int Pages { get; private set; }

    public IReadOnlyList<FactsDay> Shown { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        var pages = Cut(Facts.Days);
        Pages = Math.Max(1, pages.Count);
        Number = Math.Clamp(Number, 1, Pages);
        Shown = All || pages.Count == 0 ? Facts.Days : pages[Number - 1];
        return Page();
    }

    public async Task<IActionResult> OnGetCsvAsync(int id, CancellationToken stop)
    {
        if (!await LoadAsync(id, stop))
            return NotFound();
        using var content = new MemoryStream();
        // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
        using (var text = new StreamWriter(content, new UTF8Encoding(true), leaveOpen: true))
            FactsSheet.WriteCsv(text, Facts);
        return File(content.ToArray(), "text/csv; charset=utf-8", $"facts-{Typed(Facts.From)}-to-{Typed(Facts.To)}.csv");
    }

    /// <summary>The same page, from a year earlier on.</summary>
    public string Further => $"/learners/{Facts.LearnerId}/dispute?from={Typed(Facts.From.PlusYears(-1))}&to={Typed(Facts.To)}";

    /// <summary>This page for the same days, otherwise.</summary>
    public string AddressOf(string how) => $"/learners/{Facts.LearnerId}/dispute?from={Typed(Facts.From)}&to={Typed(Facts.To)}&{how}";

    public static string Typed(LocalDate day) => LocalDatePattern.Iso.Format(day);

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        var to = To ?? Today;
        var from = From ?? to.PlusDays(1 - UsualDays);
        Facts = (await read.RunAsync(caller.Scope, id, LocalDate.Min(from, to), LocalDate.Max(from, to), stop))!;
        return Facts is not null;
    }

    private static List<IReadOnlyList<FactsDay>> Cut(IReadOnlyList<FactsDay> days)
    {
        List<IReadOnlyList<FactsDay>> pages = [];
        List<FactsDay> page = [];
        foreach (var day in days)
        {
            page.Add(day);
            if (page.Sum(d => Math.Max(1, d.Visits.Count)) < VisitsAPage)
                continue;
            pages.Add(page);
            page = [];
        }
        return page.Count > 0 ? [.. pages, page] : pages;
    }
}
