namespace TeamCircle.Data.Commitments;

/// <summary>Runs two pieces of work at once, each to its end: on two processors, and the databases' processes on theirs.</summary>
internal static class TwoAtOnce
{
    /// <summary>At once where there is a second connection for one of them, otherwise one after the other.</summary>
    public static void Run(bool hasTwo, Action here, Action there)
    {
        if (hasTwo)
        {
            Run(here, there);
            return;
        }
        here();
        there();
    }

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
