using System.ComponentModel;
using System.Diagnostics;
using System.Text.Json;
using TeamCircle.Core.MakeUps;

namespace TeamCircle.Web.Pages.MakeUps;

/// <summary>
/// A search in a process of its own: this program once more, given the problem as one line and answering one line for each better
/// proposal, the last with all of them. The solver is native code that ends its process where one of its checks fails, and has no
/// way to be stopped that is safe; here that ends one search, not the portal. It holds no name, only numbers.
/// </summary>
public static class SearchProcess
{
    /// <summary>The one argument that makes this program answer a search instead of serving pages.</summary>
    public const string Argument = "look-for-make-up-visits";

    private static readonly JsonSerializerOptions Json = new() { IncludeFields = true };

    private sealed record Question(MakeUpProblem Problem, double Seconds);

    private sealed record Said(bool IsLast, IReadOnlyList<MakeUpAnswer> Proposals);

    /// <param name="better">Called with each better proposal, one call after the other.</param>
    /// <exception cref="OperationCanceledException">It was stopped: what was told before stands.</exception>
    /// <exception cref="InvalidOperationException">It ended without an answer.</exception>
    public static async Task<IReadOnlyList<MakeUpAnswer>> RunAsync(
        MakeUpProblem problem, Effort effort, Action<MakeUpAnswer> better, CancellationToken stop)
    {
        using var search = Begin();
        try
        {
            // its input stays open: where this process dies, that ends, and the search with it
            await search.StandardInput.WriteLineAsync(JsonSerializer.Serialize(new Question(problem, effort.Seconds), Json).AsMemory(), stop);
            await search.StandardInput.FlushAsync(stop);
            while (await search.StandardOutput.ReadLineAsync(stop) is { } line)
            {
                var said = JsonSerializer.Deserialize<Said>(line, Json)!;
                if (said.IsLast)
                    return said.Proposals;
                better(said.Proposals[0]);
            }
            await search.WaitForExitAsync(stop);
            throw new InvalidOperationException($"The search ended with code {search.ExitCode} and no answer.");
        }
        finally
        {
            search.Kill();
        }
    }

    /// <summary>The other side: reads the problem, searches, answers.</summary>
    public static async Task<int> AnswerAsync(TextReader input, TextWriter output)
    {
        if (await input.ReadLineAsync() is not { } line)
            return 1;
        var question = JsonSerializer.Deserialize<Question>(line, Json)!;
        EndWithTheOtherSide(input);
        var proposals = MakeUpPlanner.Propose(question.Problem, new(question.Seconds), better => Say(output, new(IsLast: false, [better])));
        Say(output, new(IsLast: true, proposals));
        return 0;
    }

    private static void EndWithTheOtherSide(TextReader input) =>
        new Thread(() =>
        {
            while (input.ReadLine() is not null)
            {
            }
            Environment.Exit(1);
        })
        { IsBackground = true }.Start();

    private static void Say(TextWriter output, Said said)
    {
        output.WriteLine(JsonSerializer.Serialize(said, Json));
        output.Flush();
    }

    private static Process Begin()
    {
        var portal = typeof(SearchProcess).Assembly.Location;
        var ownProgram = Path.ChangeExtension(portal, OperatingSystem.IsWindows() ? "exe" : null);
        var own = Environment.ProcessPath == ownProgram;
        var start = new ProcessStartInfo(own ? ownProgram : "dotnet", own ? [Argument] : [portal, Argument])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        // several settings of the portal's own process are secrets, and none concerns a search
        start.Environment.Remove("ConnectionStrings__TeamCircle");
        var search = Process.Start(start) ?? throw new InvalidOperationException("A search could not be started.");
        try
        {
            search.PriorityClass = ProcessPriorityClass.BelowNormal;
        }
        catch (Win32Exception)
        {
            // where the system does not allow it, the pages share the processors with it
        }
        return search;
    }
}
