using TeamCircle.Data.Import;

namespace TeamCircle.Testing;

/// <summary>The files of a sample agency's first reporting period, seen on 2 October 2026; World/README.md says where they come from.</summary>
public static class SampleWorld
{
    public static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "World");

    public static string File(string name) => Path.Combine(Folder, name);

    /// <summary>Imports all files into a test's agency.</summary>
    public static async Task ImportAsync(TestAgency agency)
    {
        var result = await agency.Get<ImportFolder>().RunAsync(new(BroughtFiles.FromPath(Folder).Files, agency.Code, Today: new(2026, 10, 2)));

        if (!result.Stored)
            throw new InvalidOperationException(string.Join('\n', result.Problems));
    }
}
