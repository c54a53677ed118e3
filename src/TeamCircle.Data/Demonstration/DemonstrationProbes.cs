using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>The demonstration's probes that come by file: eight opportunities each, three weeks before teaching, then while it goes on.</summary>
internal sealed class DemonstrationProbes(SchoolYear year)
{
    /// <summary>Trials of each probe.</summary>
    public const int Opportunities = 8;

    /// <summary>The week, counted from 0, in which teaching began.</summary>
    public const int TeachingFrom = 3;

    private readonly Table _probes = new(FileKind.Probes, "date,goal,provider,value,opportunities,kind,stage");

    public BroughtFile Probes()
    {
        // How many of the eight without help, week by week; - is a week without a probe.
        // In the eighth and ninth week the palm switch is out of order.
        Add("TF07-PRESSES", Bram, IsoDayOfWeek.Tuesday, 1, "121-2232234-4--");
        Add("TF07-PRESSES", Tomasz, IsoDayOfWeek.Wednesday, 1, "112-2-2223-4---");
        Add("TF07-HEAD", Priya, IsoDayOfWeek.Friday, 2, "2232-344");
        Add("TF07-MORE", Odalys, IsoDayOfWeek.Wednesday, 4, "1234");
        Add("TF07-MORE", Marisol, IsoDayOfWeek.Thursday, 4, "12-4");
        Add("TF12-REACHES", Bram, IsoDayOfWeek.Monday, 1, "22232334445556-");
        Add("TF12-LOOKS", Odalys, IsoDayOfWeek.Monday, 2, "2223334");
        Add("TF19-CHOOSES", Odalys, IsoDayOfWeek.Tuesday, 2, "12233---");
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
