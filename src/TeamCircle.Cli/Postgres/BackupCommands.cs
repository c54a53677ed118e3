using System.CommandLine;
using System.Globalization;
using TeamCircle.Cli.Startup;
using TeamCircle.Data.Postgres;

namespace TeamCircle.Cli.Postgres;

/// <summary><c>backup FILE</c> and <c>restore FILE</c>: the work on a whole database, done as its owner; <c>base-backup FOLDER</c>: the private server's files.</summary>
internal static class BackupCommands
{
    public static Command Backup()
    {
        var file = new Argument<string>("FILE") { Description = "The file to write; it must not exist." };
        var command = new Command("backup", "Write everything, as it stands at one moment, into one file. Saves go on meanwhile.") { file };
        command.SetAction((parsed, stop) => OwnerDesk.RunAsync(mayBeEmpty: false, async connection =>
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
        var command = new Command("restore", "Load a backup into an empty database: all of it, or nothing. An earlier release's is migrated afterwards.") { file };
        command.SetAction((parsed, stop) => OwnerDesk.RunAsync(
            mayBeEmpty: true,
            async connection =>
            {
                var manifest = await RestoreBackup.RunAsync(connection, Path.GetFullPath(parsed.GetValue(file)!), Console.Error.WriteLine, stop);
                Console.WriteLine(Sum(manifest, "restored and compared with the file"));
            },
            stop));
        return command;
    }

    public static Command Check()
    {
        var file = new Argument<string>("FILE") { Description = "A file that 'backup' wrote." };
        var command = new Command("check-backup", "Read a backup whole and compare it with what was written; touches no database.") { file };
        command.SetAction((parsed, stop) => Desk.AnswerAsync(async () =>
        {
            Console.WriteLine(Sum(await RestoreBackup.CheckAsync(Path.GetFullPath(parsed.GetValue(file)!), stop), "read and whole"));
            return 0;
        }));
        return command;
    }

    public static Command BaseBackup()
    {
        var folder = new Argument<string>("FOLDER") { Description = "The folder to make; it must not exist. A portal starts on it with TEAMCIRCLE_DATA." };
        var command = new Command("base-backup", "Copy the private server's files while it runs. Saves go on meanwhile.") { folder };
        command.SetAction((parsed, stop) => Desk.AnswerAsync(async () =>
        {
            var path = Path.GetFullPath(parsed.GetValue(folder)!);
            var named = Environment.GetEnvironmentVariable(OwnerDatabase.Setting) ?? Environment.GetEnvironmentVariable("ConnectionStrings__TeamCircle");
            var taken = await TakeBaseBackup.OfPrivateAsync(AppContext.BaseDirectory, named, path, Console.Error.WriteLine, stop);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{taken.Files:N0} files, {taken.Bytes / 1e6:N0} MB, with the log of changes from {taken.FirstLog} to {taken.LastLog}, in {path}."));
            return 0;
        }));
        return command;
    }

    private static string Sum(BackupManifest manifest, string what) => string.Create(
        CultureInfo.InvariantCulture, $"{manifest.Tables.Sum(t => t.Rows):N0} rows of {manifest.Tables.Count} tables, as of {manifest.TakenAt:uuuu-MM-dd HH:mm:ss}Z, {what}.");
}
