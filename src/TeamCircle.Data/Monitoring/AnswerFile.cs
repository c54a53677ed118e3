using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Monitoring;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Monitoring;

/// <summary>Keeps what somebody answered about a file of a sample, all questions at once.</summary>
public sealed class AnswerFile(Portal portal, TimeProvider clock)
{
    public sealed record Answer
    {
        public FileQuestion Question { get; init; }

        /// <summary>Null: not answered, which leaves an answer that stands as it is.</summary>
        public FileAnswer? Said { get; init; }
        public string? Word { get; init; }
    }

    public sealed record Input
    {
        public int Learner { get; init; }
        public int File { get; init; }
        public Answer[] Answers { get; init; } = [];
    }

    public sealed record Saved(int Sample);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.Is(Role.Administrator) || caller.Is(Role.Director)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "monitoring"), Operation.Of(operation, nameof(AnswerFile), input), db => KeepAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private async Task<Outcome<Saved>> KeepAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var file = await db.SampleFiles.SingleOrDefaultAsync(f => f.AgencyId == caller.AgencyId && f.LearnerId == input.Learner && f.Id == input.File, stop);
        if (file is null)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (input.Answers.Any(a => a.Word?.Trim().Length > FileChecks.LongestWord))
            return Outcome<Saved>.Refused("", $"A word has at most {FileChecks.LongestWord} letters.");
        var standing = await db.SampleAnswers.Where(a => a.AgencyId == caller.AgencyId && a.FileId == file.Id).ToDictionaryAsync(a => a.Question, stop);
        foreach (var answer in input.Answers.Where(a => a.Said is not null && Enum.IsDefined(a.Question)).DistinctBy(a => a.Question))
        {
            var word = string.IsNullOrWhiteSpace(answer.Word) ? null : answer.Word.Trim();
            if (!standing.TryGetValue(answer.Question, out var row))
                db.Add(row = new SampleAnswerRow { AgencyId = caller.AgencyId, FileId = file.Id, LearnerId = file.LearnerId, Question = answer.Question });
            else if ((row.Answer, row.Word) == (answer.Said!.Value, word))
                continue;
            (row.Answer, row.Word, row.AnsweredBy, row.AnsweredAt) = (answer.Said!.Value, word, caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()));
        }
        return Outcome<Saved>.Of(new(file.SampleId));
    }
}
