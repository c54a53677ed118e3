using System.Text.RegularExpressions;

namespace TeamCircle.Web.Ui;

/// <summary>What a page is called in the record of access.</summary>
public static partial class PageWords
{
    private static readonly Dictionary<string, string> Known = new()
    {
        ["/Sessions/Today"] = "Today",
        ["/Learners/Index"] = "Caseload",
        ["/Learners/Learner"] = "Learner's page",
        ["/Learners/Teach"] = "How we teach, one part",
        ["/People/ReadFirst"] = "Read first",
        ["/People/SomebodyElse"] = "Somebody else comes",
        ["/People/Supervision"] = "Supervision of assistants",
        ["/Learners/Acknowledged"] = "Who has read the plan",
        ["/Sessions/ToCountersign"] = "To countersign",
        ["/Sessions/Countersign"] = "Countersigning a visit",
        ["/Sessions/Log"] = "Log of a visit",
        ["/Commitments/Audit"] = "Audit",
        ["/Commitments/Working"] = "How it was worked out",
        ["/Calendar/Week"] = "Calendar",
        ["/Routines/Index"] = "Routines",
        ["/Routines/Plan"] = "Where a routine is practised",
        ["/Routines/Day"] = "Day strip",
        ["/Routines/Card"] = "Routine's card",
        ["/Routines/Change"] = "New version of a routine's card",
        ["/Routines/Versions"] = "What changed in a routine",
        ["/Routines/Pictures"] = "Pictures of a routine",
        ["/Routines/Picture"] = "A picture of a routine",
        ["/Routines/Name"] = "Name of a routine",
        ["/Routines/End"] = "End of a routine",
        ["/Practice/Index"] = "Practices of a learner",
        ["/Practice/Practice"] = "A practice",
        ["/Reports/Index"] = "Progress reports",
        ["/Reports/Report"] = "A progress report",
        ["/Reports/Goal"] = "A goal in a progress report",
        ["/Reports/Sign"] = "Signing a progress report",
        ["/Reports/Correct"] = "Correcting a progress report",
        ["/Reports/Review"] = "Review of a goal's teaching",
        ["/Reports/Family"] = "Progress report, as the family reads it",
        ["/Closing/Index"] = "Counts by reporting period",
        ["/Closing/Count"] = "Count of a reporting period",
        ["/Closing/Restate"] = "Restating a closed count",
        ["/Sessions/Restate"] = "Correcting a visit in a closed count",
        ["/Closing/Reopen"] = "Opening a closed count again",
        ["/Closing/Statement"] = "Statement of a closed count",
        ["/Closing/BroughtForward"] = "Brought forward",
        ["/Closing/DecideDebt"] = "Decision on what was brought forward",
        ["/Closing/AddAward"] = "Award of compensatory services",
        ["/Closing/TakeBackAward"] = "Taking back an award",
        ["/device/contact"] = "A device's contact",
        ["/Devices/SetAside"] = "Set aside",
        ["/device/bundle"] = "What a device keeps for a visit",
        ["/device/key"] = "Key to a device",
        ["/device/picture/{id}"] = "Picture of a routine, on a device",
        ["/Routines/Holds"] = "Holds",
        ["/Routines/SetHold"] = "Setting a hold",
        ["/Routines/EndHold"] = "Ending a hold",
        ["/Monitoring/SampleFile"] = "File of a sample",
        ["/Monitoring/Sample"] = "Sample of files",
        ["/Monitoring/Samples"] = "Samples of files",
        ["/Monitoring/Files"] = "Files open to a reviewer",
        ["/Monitoring/File"] = "File for an outside reviewer",
        ["/Disputes/Facts"] = "Facts in order",
        ["/Disputes/Holds"] = "Holds on records",
        ["/Disputes/Hold"] = "Holding records",
        ["/Disputes/EndHold"] = "Ending a hold on records",
        ["/Family/Facts"] = "Family page",
        ["/Family/Read"] = "Summary, as the family reads it",
        ["/Family/Tell"] = "Telling the team",
        ["/Family/AtHome"] = "Practised at home, the family's own page",
        ["/Family/Summaries"] = "Summaries for the family",
        ["/Family/Summary"] = "A summary for the family",
        ["/Family/EditSummary"] = "Writing a summary for the family",
        ["/Family/PlainWords"] = "A goal in plain words",
        ["/Family/Remarks"] = "What the family says",
        ["/Moves/LastDay"] = "Last day of a person",
        ["/Moves/HandOver"] = "Handing a learner over",
        ["/Moves/MovesIn"] = "With a plan from elsewhere",
        ["/Moves/MovesOut"] = "Moving away",
        ["/Moves/TransferFile"] = "File for a receiving agency",
        ["/Rights/Index"] = "Requests about the record",
        ["/Rights/Request"] = "A request about the record",
        ["/Papers/Dates"] = "Dates that bind",
        ["/Papers/Date"] = "A date that binds",
        ["/Papers/DateList"] = "Dates that bind, of several learners",
        ["/Papers/Packs"] = "Packs for meetings",
        ["/Papers/Pack"] = "Pack for a meeting",
        ["/Papers/ExtendedYear"] = "Extended school year",
        ["/Papers/Sent"] = "What went to the family",
        ["/Papers/Delivery"] = "A paper that went to the family",
        ["/Things/Index"] = "Things that were promised",
        ["/Things/Thing"] = "A thing that was promised",
        ["/Things/Promise"] = "Promise of a thing",
        ["/Road/Index"] = "The road today",
        ["/Road/Month"] = "My month on the road",
        ["/Road/Person"] = "A person's month on the road",
        ["/Names/Learner"] = "Names, former ones too",
        ["/Names/Person"] = "A person's names",
        ["/People/ComingOfAge"] = "Coming of age",
        ["/Quiet/Index"] = "Quiet",
        ["/History/Access"] = "Record of access",
    };

    /// <param name="key">The verb, the page's path and the handler, as the access matrix names them.</param>
    public static string Of(string key)
    {
        var parts = key.Split(' ');
        var page = parts.FirstOrDefault(p => p.StartsWith('/')) ?? key;
        var words = Known.GetValueOrDefault(page) ?? Say.Begin(Capitals().Replace(page[(page.LastIndexOf('/') + 1)..], " $1").Trim().ToLowerInvariant());
        return parts[0] is "GET" ? words : $"{words}, saving";
    }

    [GeneratedRegex("([A-Z])")]
    private static partial Regex Capitals();
}
