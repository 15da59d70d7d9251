using EarHelp.Architecture.Tests.Reading;
using NetArchTest.Rules;

namespace EarHelp.Architecture.Tests.Directions;

/// <summary>The bot SDK is past its end of support: replacing it must touch one folder.</summary>
public sealed class BotFolderTests
{
    [Theory]
    [InlineData("Microsoft.Bot")]
    [InlineData("Newtonsoft.Json")]
    [InlineData("Microsoft.Rest")]
    public void Only_the_bot_folder_uses(string outside)
    {
        foreach (var assembly in Product.Assemblies)
        {
            var result = Types.InAssembly(assembly)
                .That().DoNotResideInNamespace("EarHelp.Web.Bot")
                .Should().NotHaveDependencyOnAny(outside)
                .GetResult();

            Assert.True(result.IsSuccessful, string.Join(", ", result.FailingTypes?.Select(t => t.FullName) ?? []));
        }
    }

    [Fact]
    public void Conversation_and_triage_know_no_web_server()
    {
        foreach (var assembly in Product.Assemblies.Where(a => a.GetName().Name is "EarHelp.Triage" or "EarHelp.Conversation"))
            Assert.DoesNotContain(assembly.GetReferencedAssemblies(), r => r.Name!.StartsWith("Microsoft.AspNetCore", StringComparison.Ordinal));
    }
}
