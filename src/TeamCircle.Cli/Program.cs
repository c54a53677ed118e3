using System.CommandLine;
using TeamCircle.Cli.Beginning;
using TeamCircle.Cli.Calendar;
using TeamCircle.Cli.Commitments;
using TeamCircle.Cli.History;
using TeamCircle.Cli.Import;
using TeamCircle.Cli.People;
using TeamCircle.Cli.Postgres;
using TeamCircle.Cli.Seed;
using TeamCircle.Cli.Workout;

var root = new RootCommand("The portal's work from a terminal.")
{
    WorkoutCommand.Create(),
    ImportCommand.Create(),
    AuditCommand.Create(),
    SeedCommand.Create(),
    MigrateCommand.Create(),
    BackupCommands.Backup(),
    BackupCommands.Check(),
    BackupCommands.Restore(),
    BackupCommands.BaseBackup(),
    NewAgencyCommand.Create(),
    InviteCommand.Create(),
    InviteCommand.CreateNewPassword(),
    InviteCommand.CreateRemoveFactors(),
    VerifyCommand.Create(),
    DeriveTimesCommand.Create(),
};

return await root.Parse(args).InvokeAsync();
