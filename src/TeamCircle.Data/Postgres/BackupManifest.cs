using System.IO.Compression;
using System.Text.Json;
using NodaTime.Serialization.SystemTextJson;

namespace TeamCircle.Data.Postgres;

/// <summary>What a backup file says of itself: a zip with one entry a table, in PostgreSQL's COPY text, and this as JSON.</summary>
/// <param name="Format">Of the file; a portal reads <see cref="Current"/> only.</param>
/// <param name="TakenAt">When the one moment was that all tables show.</param>
/// <param name="ServerVersion">PostgreSQL's number, for example 180004; for people, nothing depends on it.</param>
/// <param name="Migrations">The schema: every migration of <c>portal</c> and <c>account</c> that the database had.</param>
/// <param name="Sequences">The next number that each sequence gives.</param>
public sealed record BackupManifest(
    int Format, Instant TakenAt, int ServerVersion, IReadOnlyList<string> Migrations,
    IReadOnlyList<BackupTable> Tables, IReadOnlyDictionary<string, long> Sequences)
{
    public const int Current = 1;
    private const string EntryName = "manifest.json";

    private static readonly JsonSerializerOptions Json =
        new JsonSerializerOptions { WriteIndented = true }.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    internal async Task WriteAsync(ZipArchive zip, CancellationToken stop)
    {
        await using var entry = await zip.CreateEntry(EntryName).OpenAsync(stop);
        await JsonSerializer.SerializeAsync(entry, this, Json, stop);
    }

    /// <exception cref="StartupFailure">The file is no backup, is damaged, or has another format.</exception>
    internal static async Task<BackupManifest> ReadAsync(ZipArchive zip, string file, CancellationToken stop)
    {
        var entry = zip.GetEntry(EntryName) ?? throw NotABackup(file, null);
        try
        {
            await using var json = await entry.OpenAsync(stop);
            var manifest = await JsonSerializer.DeserializeAsync<BackupManifest>(json, Json, stop) ?? throw NotABackup(file, null);
            return manifest.Format == Current
                ? manifest
                : throw new StartupFailure($"{file} has format {manifest.Format}, and this portal reads {Current}: restore it with the portal that took it.");
        }
        catch (Exception unreadable) when (unreadable is JsonException or InvalidDataException)
        {
            throw NotABackup(file, unreadable);
        }
    }

    internal static StartupFailure NotABackup(string file, Exception? cause) =>
        new($"{file} is no backup of this portal, or is damaged: take another copy of it, or an earlier backup.", cause);
}

/// <summary>One table of a backup.</summary>
/// <param name="Name">With its schema, for example <c>portal.visits</c>.</param>
/// <param name="Columns">In the order of the file.</param>
/// <param name="Sha256">Over the COPY text of all rows, ordered by their key.</param>
public sealed record BackupTable(string Name, IReadOnlyList<string> Columns, long Rows, string Sha256)
{
    internal string EntryName => $"tables/{Name}.copy";

    internal bool IsSameAs(BackupTable other) => (Name, Rows, Sha256) == (other.Name, other.Rows, other.Sha256);
}
