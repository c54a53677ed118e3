using System.Globalization;

namespace TeamCircle.Testing.Faults;

/// <summary>
/// One run of a fault: how many, by which seed, and what came of it. In the suite it is a few; TEAMCIRCLE_FAULTS names the number of a long run, and
/// TEAMCIRCLE_SEED repeats one. docs/reliability.md holds the commands and the counts.
/// </summary>
public sealed class FaultRun
{
    private readonly string _name;
    private readonly List<string> _lines = [];

    private FaultRun(string name, int faults, int seed) => (_name, Faults, Seed, Chance) = (name, faults, seed, new Random(seed));

    /// <summary>True where somebody asked for a number of their own.</summary>
    public static bool IsLong => Number("TEAMCIRCLE_FAULTS") is not null;

    public int Faults { get; }
    public int Seed { get; }

    /// <summary>One thread at a time may draw from it.</summary>
    public Random Chance { get; }

    /// <param name="inTheSuite">How many faults where nobody asked for a number.</param>
    public static FaultRun Begin(string name, int inTheSuite) =>
        new(name, Number("TEAMCIRCLE_FAULTS") ?? inTheSuite, Number("TEAMCIRCLE_SEED") ?? Random.Shared.Next());

    public void Say(string line)
    {
        lock (_lines)
            _lines.Add(line);
    }

    /// <summary>Writes what came of it beside the tests, into faults/NAME.txt, also where the run has failed.</summary>
    public void Write(FaultTable? table = null)
    {
        string[] text = [$"{_name}: {Faults} faults, seed {Seed}", "", .. table?.Lines() ?? [], .. _lines];
        var folder = Directory.CreateDirectory(Path.Combine(AppContext.BaseDirectory, "faults"));
        File.WriteAllLines(Path.Combine(folder.FullName, _name + ".txt"), text);
        foreach (var line in text)
            TestContext.Current.TestOutputHelper?.WriteLine(line);
    }

    private static int? Number(string variable) =>
        int.TryParse(Environment.GetEnvironmentVariable(variable), CultureInfo.InvariantCulture, out var number) ? number : null;
}
