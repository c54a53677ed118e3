using Microsoft.Playwright;
using TeamCircle.Browser.Tests.Browser;

namespace TeamCircle.Browser.Tests.Family;

/// <summary>A summary from the case manager's desk to the family's phone and paper, in two languages.</summary>
public sealed class SummaryJourneyTests(PortalSite site)
{
    [Fact]
    public async Task Case_manager_publishes_in_two_languages_and_the_family_reads_it_in_spanish_on_a_phone_and_on_one_sheet()
    {
        var (team, wren) = (site.Portal.Team, site.Portal.Team.Wren.Id);
        await using (var desk = await site.OpenAsync(team.Marisol, $"/learners/{wren}/summaries"))
        {
            await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Bring the facts together" }).ClickAsync();
            await desk.Page.FillAsync("[name='Input.Hers.English']", "Wren waited, looked at Bram and laughed.");
            await desk.Page.FillAsync("[name='Input.Hers.Spanish']", "Wren esperó, miró a Bram y se rio.");
            await desk.Page.FillAsync("[name='Input.SeenBy']", "Bram Nakamura");
            await desk.AssertAccessibleAsync();
            await desk.PictureAsync("summary-edit");
            await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Save, and see it as the family does" }).ClickAsync();
            await desk.Page.GetByRole(AriaRole.Button, new() { Name = "Publish to the family" }).ClickAsync();
            await Assertions.Expect(desk.Page.GetByRole(AriaRole.Status)).ToHaveTextAsync("The family can read it now.");
            desk.AssertNoComplaints();
        }

        await using var phone = await site.OpenAsync(team.Ines, $"/family/{wren}", Tab.Phone);
        await phone.Page.GetByRole(AriaRole.Link, new() { Name = "Español" }).ClickAsync();
        await phone.Page.GetByRole(AriaRole.Link, new() { Name = "leer el resumen" }).ClickAsync();
        await Assertions.Expect(phone.Page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Lo que Wren ha aprendido");

        var read = await phone.Page.Locator("main").AriaSnapshotAsync();
        Assert.Contains("Wren esperó, miró a Bram y se rio.", read, StringComparison.Ordinal);
        Assert.True(read.IndexOf("Un momento muy de Wren", StringComparison.Ordinal) < read.IndexOf("Las visitas", StringComparison.Ordinal), read);
        Assert.Contains("Odalys Ferreira dio", read, StringComparison.Ordinal);
        await phone.AssertAccessibleAsync();
        await phone.PictureAsync("summary-family");
        await phone.AssertFitsAsync(320);
        foreach (var format in new[] { "A4", "Letter" })
            await phone.AssertOneSheetAsync(format);
        phone.AssertNoComplaints();
    }
}
