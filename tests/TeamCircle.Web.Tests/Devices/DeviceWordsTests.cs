using System.Text.RegularExpressions;
using TeamCircle.Core.Sessions;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Tests.Devices;

/// <summary>What the device's own scripts say is what the portal says.</summary>
public sealed partial class DeviceWordsTests(PortalApp portal) : IClassFixture<PortalApp>
{
    [GeneratedRegex("""\["(?<code>\w*)", "(?<words>[^"]+)"\]""")]
    private static partial Regex Pair();

    [Theory]
    [InlineData("reasons")]
    [InlineData("outcomes")]
    public async Task Device_offers_what_the_portals_form_offers(string list)
    {
        using var browser = portal.CreateClient();
        var script = await browser.GetStringAsync(new Uri("/js/practise/words.js", UriKind.Relative), TestContext.Current.CancellationToken);
        var start = script.IndexOf($"export const {list} = [", StringComparison.Ordinal);
        var offered = Pair().Matches(script[start..script.IndexOf("];", start, StringComparison.Ordinal)]).Select(m => (m.Groups["code"].Value.ToLowerInvariant(), m.Groups["words"].Value));

        var choices = list == "reasons" ? Choices.Reasons(null) : Choices.Outcomes;

        Assert.Equal(choices.Select(c => (c.Value.ToLowerInvariant(), c.Text)).Order(), offered.Order());
    }
}
