using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.Import;
using TeamCircle.Testing;

namespace TeamCircle.Data.Tests.Commitments;

/// <summary>Imports the files of the demonstration world into a test's agency.</summary>
internal static class WorldRows
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Commitments", "World");

    public static string File(string name) => Path.Combine(Folder, name);

    public static async Task WriteAsync(TestAgency agency)
    {
        var code = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Agencies.Select(a => a.Code).SingleAsync());
        var result = await agency.Get<ImportFolder>().RunAsync(new(BroughtFiles.FromPath(Folder).Files, code, Today: new(2026, 10, 2)));

        Assert.True(result.Stored, string.Join('\n', result.Problems.Select(p => $"{p}")));
    }
}
