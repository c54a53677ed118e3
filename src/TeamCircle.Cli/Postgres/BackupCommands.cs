using System.CommandLine;
using System.Globalization;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Postgres;

/// <summary><c>backup FILE</c> and <c>restore FILE</c>: the work on a whole database, done as its owner.</summary>
internal static class BackupCommands
{
    public static Command Backup()
    {
        var file = new Argument<string>("FILE") { Description = "The file to write; it must not exist." };
        var command = new Command("backup", "Write everything, as it stands at one moment, into one file. Saves go on meanwhile.") { file };
        command.SetAction((parsed, stop) => OwnerDesk.RunAsync(makePrivate: false, async connection =>
        {
            var path = Path.GetFullPath(parsed.GetValue(file)!);
            var manifest = await new TakeBackup(TimeProvider.System).RunAsync(connection, path, Console.Error.WriteLine, stop);
            Console.WriteLine(Sum(manifest, "in " + path));
        }, stop));
        return command;
    }

    public static Command Restore()
    {
        var file = new Argument<string>("FILE") { Description = "A file that 'backup' wrote." };
        var command = new Command("restore", "Load a backup into an empty database of the same schema: all of it, or nothing.") { file };
        command.SetAction((parsed, stop) => OwnerDesk.RunAsync(
            makePrivate: true,
            async connection =>
            {
                var manifest = await RestoreBackup.RunAsync(connection, Path.GetFullPath(parsed.GetValue(file)!), Console.Error.WriteLine, stop);
                Console.WriteLine(Sum(manifest, "restored and compared with the file"));
            },
            stop));
        return command;
    }

    private static string Sum(BackupManifest manifest, string what) => string.Create(
        CultureInfo.InvariantCulture, $"{manifest.Tables.Sum(t => t.Rows):N0} rows of {manifest.Tables.Count} tables, as of {manifest.TakenAt:uuuu-MM-dd HH:mm:ss}Z, {what}.");
}
