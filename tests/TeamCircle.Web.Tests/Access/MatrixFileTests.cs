using TeamCircle.Web.Startup.Access;

namespace TeamCircle.Web.Tests.Access;

public sealed class MatrixFileTests(PortalApp portal) : IClassFixture<PortalApp>
{
    [Fact]
    public async Task Matrix_has_a_line_for_every_handler_and_no_line_without_one()
    {
        var handlers = await Handlers.AllAsync(portal);
        var lines = AccessMatrix.Read().Lines.Select(l => l.Key).ToHashSet();

        var wrong = handlers.Except(lines).Select(missing => $"access-matrix.csv lacks {missing}")
            .Concat(lines.Except(handlers).Select(stale => $"access-matrix.csv has {stale}, which nothing answers")).Order();
        Assert.Equal("", string.Join('\n', wrong));
        Assert.NotEmpty(lines);
    }

    [Theory]
    [InlineData("/X,,GET,none,team", "could never open")]
    [InlineData("/X,,GET,learner,everybody", "'everybody'")]
    [InlineData("/X,,GET,pupil,staff", "'pupil'")]
    [InlineData("/X,,GET,none,", "could never open")]
    public void Line_that_cannot_be_meant_stops_the_start(string line, string says)
    {
        using var file = new StringReader($"page,handler,verb,subject,who\n{line}\n");

        var refused = Assert.Throws<FormatException>(() => AccessMatrix.Read(file));

        Assert.Contains(says, refused.Message, StringComparison.Ordinal);
    }
}
