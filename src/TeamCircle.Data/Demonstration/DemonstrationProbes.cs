using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>The demonstration's probes: eight opportunities each, three weeks before teaching, then while it goes on.</summary>
internal sealed class DemonstrationProbes(SchoolYear year)
{
    private const int Opportunities = 8;
    private const int TeachingFrom = 3;

    private readonly Table _probes = new(FileKind.Probes, "date,goal,provider,value,opportunities,kind,stage");

    public BroughtFile Probes()
    {
        // How many of the eight without help, week by week; - is a week without a probe.
        Add("WREN-LOOKS", Odalys, IsoDayOfWeek.Monday, 1, "22123233434445-");
        Add("WREN-PRESSES", Bram, IsoDayOfWeek.Tuesday, 1, "121-2232334-4--");
        Add("WREN-PRESSES", Tomasz, IsoDayOfWeek.Wednesday, 1, "112-2-2333-4---");
        Add("WREN-HEAD", Priya, IsoDayOfWeek.Friday, 2, "2232-344");
        Add("WREN-MORE", Odalys, IsoDayOfWeek.Wednesday, 4, "1234");
        Add("WREN-MORE", Marisol, IsoDayOfWeek.Thursday, 4, "12-4");
        Add("JONAH-REACHES", Bram, IsoDayOfWeek.Monday, 1, "22232334445556-");
        Add("JONAH-LOOKS", Odalys, IsoDayOfWeek.Monday, 2, "2223334");
        Add("SEFA-CHOOSES", Odalys, IsoDayOfWeek.Tuesday, 2, "12233---");
        return _probes.ToFile();
    }

    private void Add(string goal, string provider, IsoDayOfWeek day, int every, string withoutHelp)
    {
        for (var i = 0; i < withoutHelp.Length; i++)
        {
            var date = year.On(i * every, day);
            if (withoutHelp[i] != '-' && date < year.Today && date != year.Storm && date != year.StaffDay)
                _probes.Add(date, goal, provider, (withoutHelp[i] - '0') * 100m / Opportunities, Opportunities, "probe",
                    i * every < TeachingFrom ? "before teaching" : "during teaching");
        }
    }
}
