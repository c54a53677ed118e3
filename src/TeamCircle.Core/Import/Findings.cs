namespace TeamCircle.Core.Import;

/// <summary>What is wrong with the files, and what a person should look at.</summary>
internal sealed class Findings
{
    private readonly List<FileProblem> _problems = [];
    private readonly List<FileNote> _notes = [];

    public IReadOnlyList<FileProblem> Problems => _problems;

    public IReadOnlyList<FileNote> Notes => _notes;

    public void Refuse(FileProblem problem) => _problems.Add(problem);

    public void Note(FileNote note) => _notes.Add(note);
}
