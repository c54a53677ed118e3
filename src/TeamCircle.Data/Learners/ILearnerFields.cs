namespace TeamCircle.Data.Learners;

/// <summary>What is typed of a learner's own row, on the form that takes one in and on the one that changes it.</summary>
public interface ILearnerFields
{
    string? Code { get; set; }
    string? Name { get; set; }
    int? MostMinutesADay { get; set; }

    /// <summary>The district that sends the learner; empty where nobody says.</summary>
    string? SendingDistrict { get; set; }
}
