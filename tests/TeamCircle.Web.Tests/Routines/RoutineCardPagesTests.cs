using System.Net;
using System.Net.Http.Headers;
using NodaTime;
using SkiaSharp;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Routines;

namespace TeamCircle.Web.Tests.Routines;

/// <summary>A routine's card over HTTP: written without scripts, reviewed, compared, printed from, with pictures. Each test has a learner of its own.</summary>
public sealed class RoutineCardPagesTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    private const string Card = "Input.Card.";
    private static int _learners;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>A routine of a new learner whose team is Odalys (vision) and Priya (physical therapy).</summary>
    private async Task<RoutineRow> RoutineAsync()
    {
        var number = Interlocked.Increment(ref _learners);
        var learner = await portal.Agency.AddAsync(new LearnerRow { Code = $"TF-6{number:00}", Name = $"Noor Hallam {number}", MostMinutesADay = 120 });
        foreach (var person in new[] { portal.Team.Odalys, portal.Team.Priya })
            await portal.Agency.AddAsync(new RelationRow { LearnerId = learner.Id, PersonId = person.Id, Kind = Core.People.Relation.Team, FromDay = new(2026, 8, 17) });
        return await portal.Agency.AddAsync(new RoutineRow { LearnerId = learner.Id, Name = "Watering the herbs", ObjectCue = "the small can" });
    }

    private async Task<FilledForm> ChangeFormAsync(RoutineRow routine) => await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/routines/{routine.Id}/change");

    /// <summary>A form with two steps and a physical prompt in it, added by the form's own buttons.</summary>
    private async Task<FilledForm> FilledAsync(RoutineRow routine)
    {
        var form = await ChangeFormAsync(routine);
        foreach (var act in new[] { "Steps.add", "Steps.add", "Prompts.add" })
            form = await form.Type("act", act).SendForAgainAsync("Arrange");
        return form.Type($"{Card}Position", "in the corner chair")
            .Type($"{Card}Steps[0].Words", "Show the can").Type($"{Card}Steps[1].Words", "The learner presses").Type($"{Card}Steps[1].Kind", "Response")
            .Type($"{Card}Procedure", "LeastToMost").Type($"{Card}WaitSeconds", "12")
            .Type($"{Card}Prompts[0].Words", "Guide the elbow").Type($"{Card}Prompts[0].Hand", "Under").Type($"{Card}Prompts[0].Part", "elbow")
            .Type($"{Card}Prompts[0].Stops", "stops when the learner pulls away");
    }

    private async Task<AngleSharp.Html.Dom.IHtmlDocument> CardAsync(RoutineRow routine, PersonRow? person = null, string query = "") =>
        await portal.PageAsync(person ?? portal.Team.Odalys, $"/routines/{routine.Id}{query}");

    [Fact]
    public async Task Card_is_written_reviewed_and_written_anew()
    {
        var routine = await RoutineAsync();
        Assert.Contains("nobody has written this card yet", (await CardAsync(routine)).Text(".head .aside"), StringComparison.Ordinal);

        Assert.Contains("Version 1 is saved.", await (await FilledAsync(routine)).SaveAsync(), StringComparison.Ordinal);

        var card = await CardAsync(routine);
        Assert.Equal("Not reviewed, do not practise.", card.Text(".stop p"));
        Assert.Null(card.QuerySelector($"a[href='/routines/{routine.Id}/practise']"));
        Assert.Equal("Least to most. Wait in silence each time; once the learner begins to move, wait on.", card.Text("#prompts p"));
        Assert.StartsWith("After 12 seconds of silence: Guide the elbow", card.Text("#prompts li"), StringComparison.Ordinal);
        Assert.Null(card.QuerySelector("#review")); // vision needs no licence for this
        var review = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Priya), $"/routines/{routine.Id}", "#review form");
        Assert.Contains("Your review is kept.", await review.Type("Input.As", "PhysicalTherapy").Type("Input.Note", "Seen on the mat.").SaveAsync("Review"), StringComparison.Ordinal);

        var reviewed = await CardAsync(routine);
        Assert.Contains("Reviewed by Priya Lindqvist, physical therapy, on 2 October 2026; holds until 1 October 2027. Seen on the mat.", reviewed.Text("#cautions"), StringComparison.Ordinal);
        Assert.NotNull(reviewed.QuerySelector($"a[href='/routines/{routine.Id}/practise']"));
        await (await ChangeFormAsync(routine)).Type($"{Card}WaitSeconds", "15").SaveAsync();
        Assert.Contains("Reviewed by Priya", (await CardAsync(routine)).Text("#cautions"), StringComparison.Ordinal);
        var changed = await portal.PageAsync(portal.Team.Odalys, $"/routines/{routine.Id}/versions");
        Assert.Equal("Wait before each prompt", changed.Text(".changes dt"));
        Assert.Equal(["before 12 seconds", "after 15 seconds"], changed.Texts(".changes p"));
        Assert.Equal("This is an older version.", (await CardAsync(routine, query: "?version=1")).Text(".problems p"));
    }

    [Fact]
    public async Task Inner_buttons_keep_what_was_typed_and_a_removed_step_is_put_back()
    {
        var form = (await FilledAsync(await RoutineAsync())).Type($"{Card}Light", "curtain drawn");

        form = await form.Type("act", "Steps.up.1").SendForAgainAsync("Arrange");
        Assert.DoesNotContain("handler", form.Page.QuerySelector("form.card-form")!.GetAttribute("action")!, StringComparison.Ordinal); // saving saves, whatever button came before
        Assert.Equal(("The learner presses", "Show the can", "curtain drawn", "12"), (form[$"{Card}Steps[0].Words"], form[$"{Card}Steps[1].Words"], form[$"{Card}Light"], form[$"{Card}WaitSeconds"]));
        form = await form.Type("act", "Steps.remove.0").SendForAgainAsync("Arrange");
        Assert.Equal("Removed: The learner presses", form.Page.QuerySelector(".gone p")!.TextContent);
        var words = await form.SaveAsync();

        Assert.Contains("Show the can", words, StringComparison.Ordinal);
        Assert.DoesNotContain("The learner presses", words, StringComparison.Ordinal);
        form = await (await FilledAsync(await RoutineAsync())).Type("act", "Steps.remove.1").SendForAgainAsync("Arrange");
        form = await form.Type("act", "Steps.back.1").SendForAgainAsync("Arrange");
        Assert.Equal(("The learner presses", "Response"), (form[$"{Card}Steps[1].Words"], form[$"{Card}Steps[1].Kind"]));
    }

    [Fact]
    public async Task What_is_wrong_is_said_beside_its_field_and_what_was_typed_stays()
    {
        var form = await (await FilledAsync(await RoutineAsync())).Type($"{Card}Prompts[0].Stops", "").Type($"{Card}WaitSeconds", "").Tick($"{Card}Flashing", "true").SendForAgainAsync();

        foreach (var field in new[] { "Input_Card_Prompts_0__Stops", "Input_Card_WaitSeconds", "Input_Card_SeizuresAsked" })
            Assert.NotNull(form.Page.QuerySelector($"#{field}-problem"));
        Assert.Equal("Show the can", form[$"{Card}Steps[0].Words"]);
        Assert.Equal("true", form[$"{Card}Flashing"]);
    }

    [Fact]
    public async Task Who_saved_second_sees_what_was_saved_meanwhile_and_loses_nothing()
    {
        var routine = await RoutineAsync();
        await (await FilledAsync(routine)).SaveAsync();
        var (first, second) = (await ChangeFormAsync(routine), await ChangeFormAsync(routine));
        await first.Type($"{Card}Light", "daylight").SaveAsync();

        var again = await second.Type($"{Card}Background", "black cloth").SendForAgainAsync(expected: HttpStatusCode.Conflict);

        Assert.Equal("Light, new", again.Page.QuerySelector(".changes dt")!.TextContent);
        Assert.Equal(("black cloth", "2"), (again[$"{Card}Background"], again["Input.Number"]));
        Assert.Contains("Version 3 is saved.", await again.SaveAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cautions_stand_in_full_until_they_were_read_then_in_one_line_until_they_change_and_in_full_on_paper()
    {
        var routine = await RoutineAsync();
        async Task WriteAsync(int number, string caution) => await portal.Agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = routine.LearnerId,
            RoutineId = routine.Id,
            Number = number,
            Content = new Core.Routines.RoutineContent { Cautions = [new("c1", Core.Routines.CautionKind.Swallowing, caution)] }.Write(),
            WrittenBy = portal.Team.Odalys.Id,
        });
        await WriteAsync(1, "Thick as honey.");
        Assert.Empty((await CardAsync(routine)).QuerySelectorAll("#cautions details"));
        var form = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/routines/{routine.Id}", "#cautions form");

        await form.SaveAsync();

        var read = await CardAsync(routine);
        Assert.Equal("Cautions that you have read: swallowing", read.Text("#cautions summary"));
        Assert.Equal("Swallowing: Thick as honey.", read.Text("#cautions .print-only li"));
        Assert.Null(read.QuerySelector("#cautions form"));
        Assert.Empty((await CardAsync(routine, portal.Team.Priya)).QuerySelectorAll("#cautions details"));
        await WriteAsync(2, "Thick as honey, upright.");
        Assert.Empty((await CardAsync(routine)).QuerySelectorAll("#cautions details"));
    }

    [Fact]
    public async Task Words_that_look_like_markup_stay_words()
    {
        const string markup = "\"><img src=x onerror=alert(1)>";
        var routine = await RoutineAsync();

        await (await FilledAsync(routine)).Type($"{Card}Steps[0].Words", markup).Type($"{Card}Say", markup).SaveAsync();

        Assert.Empty((await CardAsync(routine)).QuerySelectorAll("main img"));
        Assert.Contains(markup, (await CardAsync(routine)).Text("#steps li"), StringComparison.Ordinal);
    }

    private async Task<HttpResponseMessage> SendPictureAsync(RoutineRow routine, byte[] bytes, string words)
    {
        var browser = await portal.BrowserAsync(portal.Team.Odalys);
        var page = await portal.PageAsync(portal.Team.Odalys, $"/routines/{routine.Id}/pictures");
        var form = page.QuerySelector("form[enctype]")!;
        using var content = new MultipartFormDataContent();
        foreach (var hidden in form.QuerySelectorAll("input[type=hidden]"))
            content.Add(new StringContent(hidden.GetAttribute("value")!), hidden.GetAttribute("name")!);
        content.Add(new StringContent("Cue"), "Kind");
        content.Add(new StringContent(words), "Words");
        content.Add(new ByteArrayContent(bytes) { Headers = { ContentType = new MediaTypeHeaderValue("image/png") } }, "Sent", "can.png");
        return await browser.PostAsync(new Uri($"/routines/{routine.Id}/pictures", UriKind.Relative), content, Stop);
    }

    private static byte[] Png()
    {
        using var bitmap = new SKBitmap(40, 30);
        using var png = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return png.ToArray();
    }

    [Fact]
    public async Task Picture_is_sent_shown_kept_by_no_browser_and_removed_with_a_way_back()
    {
        var routine = await RoutineAsync();
        using var sent = await SendPictureAsync(routine, Png(), "The can from the left");
        Assert.Equal(HttpStatusCode.Redirect, sent.StatusCode);

        var image = (await CardAsync(routine)).QuerySelector("#begin img")!;
        Assert.Equal("The can from the left", image.GetAttribute("alt"));
        var address = new Uri(image.GetAttribute("src")!, UriKind.Relative);
        using var picture = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync(address, Stop);
        Assert.Equal(("image/jpeg", true), (picture.Content.Headers.ContentType!.ToString(), picture.Headers.CacheControl!.NoStore));
        foreach (var person in new[] { portal.Team.Bram, portal.Team.Ines, portal.Team.Dele }) // another team, a family, the office
        {
            using var refused = await (await portal.BrowserAsync(person)).GetAsync(address, Stop);
            Assert.Equal(HttpStatusCode.NotFound, refused.StatusCode);
        }
        var list = await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Odalys), $"/routines/{routine.Id}/pictures", ".picture-list form");
        Assert.Contains("There is no picture yet.", await list.SaveAsync("Remove"), StringComparison.Ordinal);
        using var gone = await (await portal.BrowserAsync(portal.Team.Odalys)).GetAsync(address, Stop);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
    }

    [Fact]
    public async Task Removed_picture_can_be_put_back_at_once()
    {
        var routine = await RoutineAsync();
        using var sent = await SendPictureAsync(routine, Png(), "The can");
        var browser = await portal.BrowserAsync(portal.Team.Odalys);
        using var removed = await (await FilledForm.OpenAsync(browser, $"/routines/{routine.Id}/pictures", ".picture-list form")).SendAsync("Remove");

        Assert.Contains("on the card again", await (await FilledForm.OpenAsync(browser, $"/routines/{routine.Id}/pictures", "form.undo")).SaveAsync("Remove"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(100)]
    [InlineData(CleanPicture.MostBytes + 1)]
    public async Task File_that_is_no_picture_is_refused_in_words(int length)
    {
        using var answer = await SendPictureAsync(await RoutineAsync(), new byte[length], "The can");

        var page = FilledForm.Parse(await answer.Content.ReadAsStringAsync(Stop));
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(length > 100 ? "at most 8 MB" : "Choose a JPEG, PNG or WebP", page.Text("#Sent-problem"), StringComparison.Ordinal);
        Assert.Equal("The can", page.QuerySelector("[name=Words]")!.GetAttribute("value"));
    }

    [Fact]
    public async Task Routine_is_renamed_ends_and_goes_on()
    {
        var routine = await RoutineAsync();
        var browser = await portal.BrowserAsync(portal.Team.Odalys);
        await (await FilledForm.OpenAsync(browser, $"/routines/{routine.Id}/name")).Type("Input.Name", "Watering the basil").SaveAsync();

        var ended = await (await FilledForm.OpenAsync(browser, $"/routines/{routine.Id}/end")).Type("Input.Reason", "The herbs have died.").SaveAsync();

        Assert.Contains("This routine ended on 2 October 2026.", ended, StringComparison.Ordinal);
        Assert.Contains("Odalys Ferreira: The herbs have died.", ended, StringComparison.Ordinal);
        using var change = await browser.GetAsync(new Uri($"/routines/{routine.Id}/change", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.NotFound, change.StatusCode);
        Assert.Contains("Watering the basil", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{routine.LearnerId}/routines")).Text("details"), StringComparison.Ordinal);
        Assert.Contains("The routine goes on.", await (await FilledForm.OpenAsync(browser, $"/routines/{routine.Id}/end")).SaveAsync("Resume"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Learners_page_and_list_lead_to_the_card_and_say_what_is_missing()
    {
        var routine = await RoutineAsync();

        Assert.Equal("No card is written yet", (await portal.PageAsync(portal.Team.Odalys, $"/learners/{routine.LearnerId}")).Text("#routines strong"));
        await (await FilledAsync(routine)).SaveAsync();

        foreach (var path in new[] { $"/learners/{routine.LearnerId}", $"/learners/{routine.LearnerId}/routines" })
        {
            var page = await portal.PageAsync(portal.Team.Odalys, path);
            Assert.NotNull(page.QuerySelector($"a[href='/routines/{routine.Id}']"));
            Assert.Contains("Not reviewed, do not practise", page.QuerySelector("main")!.TextContent, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Hold_stands_first_on_the_card_and_stops_practising()
    {
        var routine = await RoutineAsync();
        await (await FilledAsync(routine)).SaveAsync();
        await (await FilledForm.OpenAsync(await portal.BrowserAsync(portal.Team.Priya), $"/routines/{routine.Id}", "#review form")).Type("Input.As", "PhysicalTherapy").SaveAsync("Review");
        Assert.NotNull((await CardAsync(routine)).QuerySelector($"a[href='/routines/{routine.Id}/practise']"));

        await portal.Agency.AddAsync(new HoldRow { LearnerId = routine.LearnerId, RoutineId = routine.Id, Reason = "A new chair on Monday.", SetBy = portal.Team.Priya.Id, SetAt = Instant.FromUtc(2026, 10, 1, 16, 0) });

        var card = await CardAsync(routine);
        Assert.Contains("A new chair on Monday.", card.Text(".hold"), StringComparison.Ordinal);
        Assert.Null(card.QuerySelector($"a[href='/routines/{routine.Id}/practise']"));
    }

    [Fact]
    public async Task Other_teams_families_and_the_office_find_no_card()
    {
        var routine = await RoutineAsync();
        foreach (var person in new[] { portal.Team.Bram, portal.Team.Ines, portal.Team.Dele })
        {
            foreach (var path in new[] { "", "/change", "/pictures", "/versions", "/name", "/end" })
            {
                using var answer = await (await portal.BrowserAsync(person)).GetAsync(new Uri($"/routines/{routine.Id}{path}", UriKind.Relative), Stop);
                Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
            }
        }
    }
}
