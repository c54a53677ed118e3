using NodaTime;
using NodaTime.Extensions;
using TeamCircle.Data.Import;

namespace TeamCircle.Cli.Import;

/// <summary>What <c>import</c> does with a OneRoster set: it writes the agency's own files that come of it, and stores nothing.</summary>
internal static class RosterCommand
{
    private const int Refused = 1;

    /// <param name="today">The day on which roles are to hold; null for today.</param>
    /// <param name="folder">Where the files go, made if new; none there is written over.</param>
    public static int Run(BroughtFiles brought, LocalDate? today, string? folder)
    {
        if (folder is null)
            return ImportCommand.Fail("This is a OneRoster set. It knows no plans and no case managers, so its people and learners are written as files to complete: name a folder for them with --out FOLDER.");
        var reading = RosterSet.Read(brought.Files, today ?? TimeProvider.System.ToClock().InTzdbSystemDefaultZone().GetCurrentDate());
        var files = RosterSet.Files(reading).Select(f => (Path: Path.Combine(folder, f.Name), f.Text)).ToList();
        if (files.Find(f => File.Exists(f.Path)).Path is { } there)
            return ImportCommand.Fail($"{there} is there already: name another folder, so that nothing you completed is lost.");
        ImportReport.Write(reading.Problems);
        ImportReport.Write(reading.Notes);
        if (!reading.IsEmpty)
            Directory.CreateDirectory(folder);
        foreach (var (path, text) in files)
        {
            File.WriteAllText(path, text, new System.Text.UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
            Console.WriteLine(path);
        }
        if (!reading.IsEmpty)
            Console.WriteLine("Nothing is stored. Take out whom the agency does not work with, fill in what is empty (learners.csv: plan, case manager, team, most minutes a day), and import that folder.");
        return reading.Problems.Count > 0 ? Refused : 0;
    }
}
