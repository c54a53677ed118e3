namespace TeamCircle.Data;

/// <summary>Where the portal and the terminal program keep what is not in the repository: one folder, to mount or to back up whole.</summary>
/// <param name="Data">Absolute. <c>TEAMCIRCLE_DATA</c>; else <c>data</c> beside the solution, or beside the program where there is no solution.</param>
/// <param name="IsChosen">True where a person named it: then no other folder is ever used in its place.</param>
public sealed record PortalFolders(string Data, bool IsChosen)
{
    public string Postgres => Path.Combine(Data, "postgres");

    /// <summary>The key that seals the trail of changes. Not in any backup of the database: keep a copy elsewhere.
    /// <c>TEAMCIRCLE_SEAL_KEY</c>; else <c>seal.key</c> in the folder.</summary>
    public string SealKey =>
        Environment.GetEnvironmentVariable("TEAMCIRCLE_SEAL_KEY") is { Length: > 0 } chosen ? Path.GetFullPath(chosen) : Path.Combine(Data, "seal.key");

    public string Logs => Path.Combine(Data, "logs");

    public static PortalFolders From(string contentRoot) =>
        Environment.GetEnvironmentVariable("TEAMCIRCLE_DATA") is { Length: > 0 } chosen
            ? new(Path.GetFullPath(chosen), true)
            : new(Path.GetFullPath(Path.Combine(Home(contentRoot), "data")), false);

    private static string Home(string contentRoot)
    {
        for (var folder = new DirectoryInfo(contentRoot); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "TeamCircle.sln")))
                return folder.FullName;
        return contentRoot;
    }
}
