namespace TeamCircle.Data.Commitments;

/// <summary>Runs two pieces of work at once, each to its end: on two processors, and the databases' processes on theirs.</summary>
internal static class TwoAtOnce
{
    /// <remarks>Neither is left running where the other fails: they use connections that are closed afterwards.</remarks>
    public static void Run(Action here, Action there)
    {
        var other = Task.Run(there);
        try
        {
            here();
        }
        finally
        {
            ((IAsyncResult)other).AsyncWaitHandle.WaitOne();
        }
        other.GetAwaiter().GetResult();
    }
}
