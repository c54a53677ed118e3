using System.Text.RegularExpressions;
using Microsoft.Playwright;
using SkiaSharp;
using TeamCircle.Browser.Tests.Browser;
using TeamCircle.Browser.Tests.Sessions;
using TeamCircle.Core.People;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Browser.Tests.Routines;

/// <summary>One journey: a card is written, reviewed, changed, compared, given a picture, and printed on one sheet.</summary>
public sealed partial class CardTests(PortalSite site)
{
    private async Task<(TomaszsLearner Learner, RoutineRow Routine)> RoutineAsync()
    {
        var learner = await TomaszsLearner.AddAsync(site);
        await site.Portal.Agency.AddAsync(new RelationRow { LearnerId = learner.Learner.Id, PersonId = site.Portal.Team.Bram.Id, Kind = Relation.Team, FromDay = new(2026, 8, 17) });
        return (learner, await site.Portal.Agency.AddAsync(new RoutineRow { LearnerId = learner.Learner.Id, Name = "Watering the herbs", ObjectCue = "the small can, filled" }));
    }

    private static async Task PressAsync(Tab tab, string button)
    {
        await tab.Page.GetByRole(AriaRole.Button, new() { Name = button, Exact = true }).ClickAsync();
        await tab.Page.WaitForLoadStateAsync();
    }

    private static async Task PressAsync(Tab tab, ILocator item, string button)
    {
        await item.GetByRole(AriaRole.Button, new() { Name = button }).ClickAsync();
        await tab.Page.WaitForLoadStateAsync();
    }

    private static ILocator Item(Tab tab, string list, int number) => tab.Page.Locator($"#{list}-{number - 1}");

    private static async Task StepAsync(Tab tab, int number, string kind, string words)
    {
        await PressAsync(tab, "Add a step");
        await Item(tab, "steps", number).GetByLabel(kind).CheckAsync();
        await Item(tab, "steps", number).GetByLabel("What is done").FillAsync(words);
    }

    private static async Task WriteAsync(Tab tab)
    {
        await PressAsync(tab, "Add a caution");
        await Item(tab, "cautions", 1).GetByLabel("About").SelectOptionAsync("PowerAndWater");
        await Item(tab, "cautions", 1).GetByLabel("What to take care of").FillAsync("The pump runs on its battery only; the box hangs on the frame.");
        await tab.Page.GetByLabel("Words to say").FillAsync("Water the herbs.");
        await tab.Page.GetByLabel("Position", new() { Exact = true }).FillAsync("In the chair, hips all the way back, feet on the block.");
        await tab.Page.GetByLabel("Distance").FillAsync("A forearm's length.");
        await StepAsync(tab, 1, "Shown by the adult", "Show the can and let it be felt.");
        await StepAsync(tab, 2, "Response asked", "Presses; the pump runs.");
        await Item(tab, "steps", 2).GetByText("Presses the switch with the elbow within the wait.").ClickAsync();
        await StepAsync(tab, 3, "Waiting", "Listen to the water together.");
        await PressAsync(tab, "Add a prompt");
        await Item(tab, "prompts", 1).GetByLabel("In the team's own words").FillAsync("Bring the elbow to the switch.");
        await Item(tab, "prompts", 1).GetByLabel("Touch").SelectOptionAsync("Under");
        await Item(tab, "prompts", 1).GetByLabel("Part of the body").FillAsync("elbow");
        await Item(tab, "prompts", 1).GetByLabel("When the adult lets go").FillAsync("stops when the learner pulls away");
        await tab.Page.GetByLabel("Procedure").SelectOptionAsync("LeastToMost");
        await tab.Page.GetByLabel("Silent seconds before each prompt", new() { Exact = true }).FillAsync("12");
    }

    /// <summary>A drawn can on a tray: no photograph of anybody's home belongs into a test.</summary>
    private static byte[] Drawing()
    {
        using var surface = SKSurface.Create(new SKImageInfo(800, 600));
        surface.Canvas.Clear(new SKColor(20, 24, 23));
        using var paint = new SKPaint { Color = new SKColor(196, 160, 60), IsAntialias = true };
        surface.Canvas.DrawRoundRect(300, 220, 220, 220, 24, 24, paint);
        (paint.Style, paint.StrokeWidth) = (SKPaintStyle.Stroke, 26);
        surface.Canvas.DrawLine(510, 400, 640, 260, paint);
        surface.Canvas.DrawArc(new SKRect(200, 250, 320, 400), 90, 180, false, paint);
        using var image = surface.Snapshot();
        using var png = image.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    private static async Task AddPictureAsync(Tab tab)
    {
        await tab.Page.GetByRole(AriaRole.Link, new() { Name = "Pictures", Exact = true }).ClickAsync();
        await tab.Page.GetByLabel("Object cue").CheckAsync();
        await tab.Page.GetByLabel("What it shows").FillAsync("The small can on the black cloth");
        await tab.Page.GetByLabel("Picture", new() { Exact = true }).SetInputFilesAsync(new FilePayload { Name = "can.png", MimeType = "image/png", Buffer = Drawing() });
        await PressAsync(tab, "Put it on the card");
        await LookAsync(tab, "card-pictures");
    }

    /// <summary>axe on a phone and a desk, light and dark, and pictures of each.</summary>
    private static async Task LookAsync(Tab tab, string name)
    {
        foreach (var width in new[] { Tab.Phone, Tab.Desk })
        {
            await tab.AssertFitsAsync(width);
            await tab.AssertAccessibleAsync();
        }
        await tab.PictureAsync(name);
        await tab.AssertFitsAsync(320);
        await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
    }

    [Fact]
    public async Task Card_is_written_reviewed_compared_and_printed_on_one_sheet()
    {
        var (_, routine) = await RoutineAsync();
        await using var tab = await site.OpenAsync(site.Portal.Team.Tomasz, $"/routines/{routine.Id}/change");
        await WriteAsync(tab);
        await LookAsync(tab, "card-form");
        await PressAsync(tab, "Save as version 1");
        await tab.Page.WaitForURLAsync($"**/routines/{routine.Id}");
        Assert.True(await tab.Page.GetByText("Not reviewed, do not practise.").IsVisibleAsync());
        await LookAsync(tab, "card-not-reviewed");
        await AddPictureAsync(tab);

        await using var bram = await site.OpenAsync(site.Portal.Team.Bram, $"/routines/{routine.Id}");
        await bram.Page.GetByLabel("Occupational therapy").CheckAsync();
        await PressAsync(bram, "I have reviewed version 1");
        await LookAsync(bram, "card");
        await AssertOneSheetAsync(bram);

        await tab.Page.GotoAsync($"/routines/{routine.Id}/change");
        await PressAsync(tab, Item(tab, "steps", 2), "Down");
        await PressAsync(tab, Item(tab, "steps", 1), "Remove");
        await PressAsync(tab, Item(tab, "steps", 1), "Put it back");
        await tab.Page.GetByLabel("Light", new() { Exact = true }).FillAsync("Curtain drawn, one lamp.");
        await tab.Page.GetByLabel("Light", new() { Exact = true }).PressAsync("Enter"); // saves, and does none of the inner acts
        await tab.Page.WaitForURLAsync($"**/routines/{routine.Id}");
        Assert.True(await tab.Page.GetByText("Reviewed by Bram Nakamura").IsVisibleAsync());
        await tab.Page.GetByRole(AriaRole.Link, new() { Name = "What changed", Exact = true }).ClickAsync();
        await tab.Page.WaitForLoadStateAsync();
        Assert.Equal(["Light, new", "Order of the steps"], await tab.Page.Locator(".changes dt").AllInnerTextsAsync());
        await LookAsync(tab, "card-versions");
        tab.AssertNoComplaints();
        bram.AssertNoComplaints();
    }

    private static async Task AssertOneSheetAsync(Tab tab)
    {
        foreach (var format in new[] { PaperFormat.Letter, PaperFormat.A4 })
        {
            var pdf = System.Text.Encoding.Latin1.GetString(await tab.Page.PdfAsync(new() { Format = format }));
            Assert.Single(SheetOfPdf().Matches(pdf));
        }
        await tab.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await tab.Page.SetViewportSizeAsync(718, 950); // Letter without its margins
        await tab.PictureAsItIsAsync("card-print");
        await tab.Page.EmulateMediaAsync(new() { Media = Media.Screen });
        await tab.Page.SetViewportSizeAsync(Tab.Desk, 900);
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex SheetOfPdf();
}
