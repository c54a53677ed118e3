namespace TeamCircle.Data.Postgres;

/// <summary>How the portal's private PostgreSQL is run.</summary>
/// <param name="Folder">Absolute; holds the cluster, its socket, its log and its password.</param>
public sealed record PostgresOptions(string Folder)
{
    /// <summary>True where a person named the folder: then no other one is ever used in its place.</summary>
    public bool FolderIsChosen { get; init; }

    /// <summary>False in tests only: faster, and a crash of the machine may cost everything in it.</summary>
    public bool Durable { get; init; } = true;

    /// <summary>Loopback TCP with a password in place of a private Unix socket; always so on Windows.</summary>
    public bool OverTcp { get; init; } = OperatingSystem.IsWindows();

    /// <summary>The loopback port where <see cref="OverTcp"/>; 0 takes any free one.</summary>
    public int Port { get; init; }

    /// <summary>The only folder in which to look for the programs; null looks in the usual places.</summary>
    public string? ProgramFolder { get; init; } = Environment.GetEnvironmentVariable("PG_BIN") is { Length: > 0 } named ? named : null;

    /// <summary>Folders from which node_modules is looked for, upwards.</summary>
    public IReadOnlyList<string> SearchFrom { get; init; } = [AppContext.BaseDirectory, Environment.CurrentDirectory];

    /// <summary>Told what a person may want to know, a line at a time: another folder is used, programs were copied.</summary>
    public Action<string> Note { get; init; } = _ => { };
}
