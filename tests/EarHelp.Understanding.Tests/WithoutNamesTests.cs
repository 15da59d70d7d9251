using EarHelp.Understanding.Messages;

namespace EarHelp.Understanding.Tests;

public sealed class WithoutNamesTests
{
    [Theory]
    [InlineData("My left ear and Jonquil's cat are odd", "My left ear and … cat are odd")]
    [InlineData("Wilhelmina says it is odd", "… says it is odd")]
    [InlineData("my name is brendan and it fizzes", "my name is … and it fizzes")]
    [InlineData("ring me on 07700 900123", "ring me on … …")]
    [InlineData("write to ana.b@example.org please", "write to ….…@….… please")]
    [InlineData("WHY DOES ZEBEDEE FIZZ", "WHY DOES … FIZZ")]
    [InlineData("I think it fizzes, I'm puzzled", "I think it fizzes, I'm puzzled")]
    public void What_can_be_a_name_a_number_or_an_address_is_left_out(string text, string written) =>
        Assert.Equal(written, WithoutNames.Of(Some.Book, text));

    /// <summary>Stated in the command's help: this is where a program ends.</summary>
    [Fact]
    public void A_name_in_small_letters_that_nothing_announces_stays() =>
        Assert.Equal("it fizzes when wilhelmina sings", WithoutNames.Of(Some.Book, "it fizzes when wilhelmina sings"));
}
