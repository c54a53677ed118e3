using System.Globalization;
using System.IO.Compression;
using System.Text;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using TeamCircle.Testing;

namespace TeamCircle.Data.Tests.Import;

/// <summary>Imports into a test's agency on 2 October 2026, and counts everything that it holds.</summary>
internal static class ImportedAgency
{
    public static readonly LocalDate Today = new(2026, 10, 2);

    public static Task<ImportResult> ImportAsync(this TestAgency agency, IReadOnlyList<BroughtFile> files, bool goodRows = false) =>
        agency.Get<ImportFolder>().RunAsync(new(files, agency.Code, Today: Today, GoodRows: goodRows));

    public static Task<ImportResult> ImportAsync(this TestAgency agency, string name, string text, bool goodRows = false) =>
        agency.ImportAsync([File(name, text)], goodRows);

    public static BroughtFile File(string name, string text) => File(name, Encoding.UTF8.GetBytes(text));

    public static BroughtFile File(string name, byte[] content) => new(name, FileShape.ByBeginning(name)!.Value, content);

    public static BroughtFiles Zip(params (string Name, byte[] Content)[] entries)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in entries)
            {
                using var entry = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                entry.Write(content);
            }
        }
        return BroughtFiles.From([("folder.zip", () => new MemoryStream(stream.ToArray()))]);
    }

    /// <summary>Rows, versions and changes of every table but operations: two equal answers mean that nothing changed.</summary>
    public static Task<string> StateAsync(this TestAgency agency) => agency.Portal.ReadAsync(agency.WholeAgency, async db =>
    {
        var counts = new StringBuilder();
        foreach (var type in db.Model.GetEntityTypes().OrderBy(t => t.GetTableName()))
        {
            var table = type.GetTableName();
            var versions = type.FindProperty("Version") is null ? "0" : "coalesce(sum(version), 0)";
            var sql = $"select count(*) || ' rows, versions ' || {versions} as \"Value\" from portal.{table}";
            counts.AppendLine(CultureInfo.InvariantCulture, $"{table}: {await db.Database.SqlQueryRaw<string>(sql).SingleAsync()}");
        }
        return counts.ToString();
    });

    /// <summary>A digest of every row of the agency's own facts, without the versions that only count how often a row was written.</summary>
    public static Task<string> FactsAsync(this TestAgency agency) => agency.Portal.ReadAsync(agency.WholeAgency, async db =>
    {
        string[] records = ["accesses", "blocks", "changes", "import_additions", "imports", "learner_periods", "operations"];
        var facts = new StringBuilder();
        foreach (var table in db.Model.GetEntityTypes().Select(t => t.GetTableName()).Except(records).Order(StringComparer.Ordinal))
        {
            var sql = $"select count(*) || ' ' || coalesce(md5(string_agg(r.x, '|' order by r.x)), '') as \"Value\" from (select (to_jsonb(t) - 'version')::text as x from portal.{table} t) r";
            facts.AppendLine(CultureInfo.InvariantCulture, $"{table}: {await db.Database.SqlQueryRaw<string>(sql).SingleAsync()}");
        }
        return facts.ToString();
    });
}
