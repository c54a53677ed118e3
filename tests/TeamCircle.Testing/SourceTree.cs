namespace TeamCircle.Testing;

/// <summary>The source that the tests were built from, for tests that hold texts to each other.</summary>
public static class SourceTree
{
    /// <summary>The solution's folder.</summary>
    public static string Root { get; } = Find();

    public static string Read(params string[] path) => File.ReadAllText(Path.Combine([Root, .. path]));

    /// <summary>Files below a folder whose names end so, without what builds and packages put there.</summary>
    public static IEnumerable<string> Files(string folder, string ending) => Directory.EnumerateFiles(Path.Combine(Root, folder), "*" + ending, SearchOption.AllDirectories)
        .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            && !f.Contains($"{Path.DirectorySeparatorChar}bin{Path.DirectorySeparatorChar}", StringComparison.Ordinal)
            && !f.Contains("node_modules", StringComparison.Ordinal));

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "TeamCircle.sln")))
                return folder.FullName;
        throw new InvalidOperationException("The tests do not lie below the solution.");
    }
}
