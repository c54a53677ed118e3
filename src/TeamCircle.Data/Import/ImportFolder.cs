using System.Data;
using System.Security.Cryptography;
using TeamCircle.Core.Import;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Import;

/// <summary>
/// Takes the files that an agency brings, in one transaction: all rows are read and checked first, and nothing is stored
/// unless all are good, or somebody chose to store the good ones. What is known is matched and updated, so that the same
/// files a second time change nothing at all (docs/import.md).
/// </summary>
public sealed class ImportFolder(Portal portal, TimeProvider clock)
{
    /// <param name="AgencyCode">The agency, made if new; null for the only one there is.</param>
    /// <param name="As">The e-mail of the person who brings the files; null for the agency's own terminal person.</param>
    /// <param name="Today">The day that counts as today; null for today in the agency's zone.</param>
    /// <param name="GoodRows">Whether the good rows are stored although others are refused.</param>
    /// <param name="Closures">The events of calendar files that are closures, by their own names; null takes all.</param>
    public sealed record Input(
        IReadOnlyList<BroughtFile> Files, string? AgencyCode = null, string? As = null, LocalDate? Today = null, bool GoodRows = false,
        IReadOnlySet<string>? Closures = null);

    /// <summary>From a terminal, where whoever may reach the database may import.</summary>
    /// <exception cref="ImportFailure">There is no such agency or person; the message says what to do.</exception>
    public Task<ImportResult> RunAsync(Input input, IProgress<ImportProgress>? progress = null, CancellationToken stop = default) =>
        RunAsync(input, null, Operation.Own(nameof(ImportFolder)), progress, stop);

    /// <summary>The events of calendar files that last whole days: a person says which of them are closures.</summary>
    public IReadOnlyList<RawEvent> Events(IReadOnlyList<BroughtFile> files) =>
    [
        .. ReadBrought.Run(files.Where(f => f.Kind == FileKind.ClosureEvents), _ => true, ImportSession.EventsUntil(clock, null))
            .Brought.Calendars.SelectMany(c => c.Events).Where(e => e.Days.Count > 0),
    ];

    /// <summary>From the page, for an administrator of the agency; anybody else gets null.</summary>
    public async Task<ImportResult?> RunAsync(Caller caller, Guid operation, Input input, IProgress<ImportProgress>? progress, CancellationToken stop) =>
        caller.Is(Role.Administrator)
            ? await RunAsync(input, caller, Operation.Of(operation, nameof(ImportFolder), input.Files.Select(Hash)), progress, stop)
            : null;

    private async Task<ImportResult> RunAsync(Input input, Caller? caller, Operation operation, IProgress<ImportProgress>? progress, CancellationToken stop)
    {
        var scope = caller is null ? new Scope(Wall.Agency, 0, 0, [], true, "an import") : Scope.WholeAgency(caller, "an import");
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, operation, stop);
        var session = new ImportSession(work.Db, clock, input, progress ?? new Progress());
        try
        {
            var result = await session.RunAsync(caller, stop);
            if (result.Stored)
                await work.CommitAsync(stop);
            return result;
        }
        catch (Exception e) when (Refusals.Of(e) is { } problem)
        {
            return new(session.Code, false, [], [new("", 0, "", problem.Message)], [], [], []);
        }
    }

    internal static string Hash(BroughtFile file) => Convert.ToHexStringLower(SHA256.HashData(file.Content));

    private sealed class Progress : IProgress<ImportProgress>
    {
        public void Report(ImportProgress value)
        {
        }
    }
}

/// <summary>Why an import cannot begin, in one line that says what to do.</summary>
public sealed class ImportFailure(string message) : Exception(message);
