using EarHelp.Understanding.Messages;
using NodaTime;

namespace EarHelp.Understanding.Tests;

/// <summary>A long story without full stops is read whole, and a denial in it is never misheard.</summary>
public class StoryTests
{
    const string Story =
        "back tuesday from ten days at my sisters by the sea, was in the water every single day, left ear feels stuffed n cant make out anyone on the phone now. "
        + "stuck a kirby grip in it the once (i know i know), salt water + bicarb drops since thursday n its getting worse not better. not sore tho, bit dizzy when i stood up yest";

    /// <summary>A Saturday.</summary>
    static readonly Said Read = MessageReader.Read(Some.Book, Story, new LocalDate(2026, 8, 8));

    [Fact]
    public void All_nine_things_of_it_are_heard()
    {
        var said = Read.Facts.Where(f => f.Standing == Standing.Affirmed).Select(f => $"{Some.Dialog.Facts[f.Fact].Id}: {f.Written}").Distinct().Order().ToList();
        var denied = Read.Facts.Where(f => f.Standing == Standing.Denied).Select(f => Some.Dialog.Facts[f.Fact].Id).Distinct().ToList();

        Assert.Equal(
            ["blocked: yes", "cotton buds lately: yes", "drops made it worse: yes", "ears affected: left", "hearing: reduced", "spinning: yes", "swam lately: yes"],
            said);
        Assert.Equal(["pain"], denied);
    }

    [Fact]
    public void The_ear_is_that_of_the_writer() =>
        Assert.All(Read.Facts.Where(f => f.Ear is not null && f.Standing is Standing.Affirmed or Standing.Denied), f => Assert.Equal("left", f.Ear ?? "left"));

    [Fact]
    public void Nothing_in_it_raises_an_alarm() => Assert.Empty(Read.Signposts);
}
