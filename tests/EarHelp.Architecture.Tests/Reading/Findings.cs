namespace EarHelp.Architecture.Tests.Reading;

/// <summary>What breaks a rule of the house: all of it is told at once, one a line.</summary>
static class Findings
{
    public static void None<T>(IEnumerable<T> found)
    {
        var all = found.ToList();

        Assert.True(all.Count == 0, $"{all.Count} found:\n{string.Join('\n', all)}");
    }
}
