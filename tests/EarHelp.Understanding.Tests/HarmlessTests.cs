using EarHelp.Understanding.Messages;

namespace EarHelp.Understanding.Tests;

/// <summary>Everyday sentences with words in them that elsewhere mean danger.</summary>
public class HarmlessTests
{
    [Theory]
    [InlineData("What colour should wax be?")]
    [InlineData("I had a wobble on my bike but I am fine, just need my ears cleaned")]
    [InlineData("My hearing aid battery is flat, can I still come on Monday?")]
    [InlineData("The light in your waiting room is lovely")]
    [InlineData("My heart sank when I saw the price")]
    [InlineData("I am dying to get my ears done before the wedding")]
    [InlineData("I am confused about the drops, morning or night?")]
    [InlineData("I nearly passed out laughing at the leaflet")]
    [InlineData("My daughter hit me with a question I could not answer: what is wax for?")]
    [InlineData("I dropped the bottle and the drops went everywhere")]
    [InlineData("Struck by how friendly your nurse was, thank you")]
    [InlineData("My husband drives me up the wall, can he come in with me?")]
    [InlineData("The stairs to your clinic are a killer, is there a lift?")]
    [InlineData("I could murder a cup of tea while I wait")]
    [InlineData("I have been sick of the queue on the phone all week")]
    [InlineData("My vision for the clinic: free parking")]
    [InlineData("The headmaster wants a note for Thursday")]
    [InlineData("I am drowning in paperwork, can I fill in the form at the clinic?")]
    [InlineData("My neck of the woods is far away, do you have another clinic?")]
    [InlineData("I am blue that you had no slot, grey weather here too")]
    [InlineData("Granny swears by garlic, does it do any good?")]
    [InlineData("I want to end my subscription to your reminders")]
    [InlineData("I took 2 paracetamol at breakfast for my back")]
    [InlineData("Landed in Dublin last night with a head cold")]
    public void Raise_no_alarm(string text)
    {
        var said = Some.Hear(text);

        Assert.DoesNotContain(said.Signposts, s => s.Standing == Standing.Affirmed);
        Assert.DoesNotContain(said.Facts, f => f.Standing == Standing.Affirmed && Some.Wording.Signposts.Any(s => s.Claims.Any(c => !c.Of.IsNamedFact && c.Of.Index == f.Fact)));
    }
}
