using System.Text.Json;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime.Text;
using TeamCircle.Core;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>What devices sent and the portal could not accept: entered after all, or closed with a reason.</summary>
public sealed class SetAsideModel(CurrentCaller caller, ReadSetAside read, EnterSetAside enter, CloseSetAside close) : PageModel
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public CloseSetAside.Input Closed { get; private set; } = new();

    public IReadOnlyList<ListedAside> Waiting { get; private set; } = [];

    /// <summary>The one that was to be entered or closed and could not be; null on a fresh page.</summary>
    public int? Tried { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Waiting = await read.RunAsync(caller.Value, caller.Scope, stop);

    public async Task<IActionResult> OnPostEnterAsync([Bind(Prefix = "Entered")] EnterSetAside.Input entered, CancellationToken stop) =>
        await AnswerAsync(await enter.RunAsync(caller.Value, Operation, entered, stop), entered.Id, "It is entered.", stop);

    public async Task<IActionResult> OnPostCloseAsync([Bind(Prefix = "Closed")] CloseSetAside.Input closed, CancellationToken stop)
    {
        Closed = closed;
        return ModelState.IsValid
            ? await AnswerAsync(await close.RunAsync(caller.Value, Operation, closed, stop), closed.Id, "It is closed. What was typed stays on record.", stop)
            : await AgainAsync(closed.Id, [], stop);
    }

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, string done, CancellationToken stop) where T : class
    {
        if (outcome.Problems.Contains(Problem.NotFound))
            return NotFound();
        if (outcome.Value is null)
            return await AgainAsync(id, outcome.Problems, stop);
        TempData["Done"] = done;
        return Redirect("/set-aside");
    }

    private async Task<IActionResult> AgainAsync(int id, IReadOnlyList<Problem> problems, CancellationToken stop)
    {
        Tried = id;
        ModelState.AddProblems([.. problems.Select(p => p with { Field = "" })], "");
        await OnGetAsync(stop);
        return Page();
    }

    /// <summary>Numbers that say nothing to a person; they stand in full below.</summary>
    private static readonly HashSet<string> Numbers = ["id", "version", "goalId", "visit", "visits", "services", "routine", "observes", "sessionId", "providerId", "learner"];

    /// <summary>What was typed, line by line; what has parts of its own is counted here and stands in full below.</summary>
    public static IEnumerable<(string Name, string Value)> Typed(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return [.. body.RootElement.EnumerateObject().Where(p => p.Value.ValueKind is not (JsonValueKind.Null or JsonValueKind.Object) && !Numbers.Contains(p.Name))
            .Select(p => (Say.Begin(Spaced(p.Name)), ValueOf(p.Value)))];
    }

    public static string Whole(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return JsonSerializer.Serialize(body.RootElement, Indented);
    }

    /// <summary>Where the same can be typed anew, with what stands now before one's eyes; null for a practice.</summary>
    public static string? FormOf(ListedAside item)
    {
        using var body = JsonDocument.Parse(item.Body);
        return item.Kind switch
        {
            OperationKind.Visit => body.RootElement.TryGetProperty("visits", out var visits) && visits.GetArrayLength() > 0 ? $"/visits/{visits[0].GetGuid()}/log" : "/visits/new/log",
            OperationKind.Probe => $"/goals/{body.RootElement.GetProperty("goalId").GetInt32()}/probe",
            _ => null,
        };
    }

    private static string Spaced(string name) => string.Concat(name.Select(c => char.IsUpper(c) ? $" {char.ToLowerInvariant(c)}" : $"{c}"));

    private static string ValueOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.String => LocalDatePattern.Iso.Parse(value.GetString()!) is { Success: true } day ? Say.Date(day.Value) : value.GetString()!,
        JsonValueKind.True => "yes",
        JsonValueKind.False => "no",
        JsonValueKind.Array when value.EnumerateArray().Any(v => v.ValueKind == JsonValueKind.Object) => Say.Number(value.GetArrayLength()),
        _ => value.ToString(),
    };
}
