namespace TeamCircle.Core.Monitoring;

/// <summary>
/// Draws files at random so that anybody can draw them again: the same list, number and seed give the same files in the same order, on any machine.
/// </summary>
/// <remarks>
/// <para>Numbers come from SplitMix64 (Steele, Lea and Flood 2014, "Fast splittable pseudorandom number generators", OOPSLA): the state grows by
/// 0x9E3779B97F4A7C15 and is mixed by two shifts with multiplication and a last shift. A number below n is taken by rejection: one that lies in the last,
/// incomplete run of n is thrown away, so that every file is as likely as any other.</para>
/// <para>Files are chosen by the shuffle of Durstenfeld (1964, Communications of the ACM 7, algorithm 235), from the front: the first place is changed
/// with one of all places, the second with one of all but the first, and so on, for as many places as files are asked for.</para>
/// </remarks>
public static class SampleDraw
{
    /// <summary>The chosen ones, in the order in which they were drawn; all of them, shuffled, where as many or more are asked for.</summary>
    /// <param name="population">In an order that everybody can repeat: by their ids.</param>
    /// <param name="size">0 or more.</param>
    public static IReadOnlyList<int> Of(IReadOnlyList<int> population, int size, long seed)
    {
        int[] places = [.. population];
        var state = unchecked((ulong)seed);
        var drawn = Math.Min(size, places.Length);
        for (var i = 0; i < drawn; i++)
        {
            var other = i + (int)Below((ulong)(places.Length - i), ref state);
            (places[i], places[other]) = (places[other], places[i]);
        }
        return places[..drawn];
    }

    /// <summary>The next number of the generator; public so that it can be held to published values.</summary>
    public static ulong Next(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }

    private static ulong Below(ulong bound, ref ulong state)
    {
        var complete = ulong.MaxValue - ulong.MaxValue % bound; // a multiple of the bound: what lies at or past it is thrown away
        ulong number;
        do
            number = Next(ref state);
        while (number >= complete);
        return number % bound;
    }
}
