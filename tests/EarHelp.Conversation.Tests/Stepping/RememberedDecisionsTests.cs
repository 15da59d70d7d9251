using System.Text;
using EarHelp.Conversation.Records;
using EarHelp.Conversation.Stepping;

namespace EarHelp.Conversation.Tests.Stepping;

public class RememberedDecisionsTests
{
    [Fact]
    public void Whoever_came_before_makes_no_difference()
    {
        // The ages lie just under, at and just over each bound that a row uses, and far from all of them.
        foreach (var age in new[] { "0", "17", "18", "44", "45", "46", "49", "50", "51", "59", "60", "65", "120" })
        {
            var alone = new ServedEdition(Some.Edition.Edition, Some.Edition.Assessor);

            Assert.Equal(Replies(alone, age), Replies(Some.Edition, age));
        }
    }

    static string Replies(ServedEdition edition, string age)
    {
        var text = new StringBuilder();
        var patient = new Patient(edition).Tell("age", age).Tell("hearing", "reduced").Tell("hearing changed on", "5").Tell("pain", "yes");
        while (patient.Asked is not null)
        {
            patient.Answer();
            text.Append(Encoding.UTF8.GetString(TurnJson.WriteReplies(patient.Replies)));
        }

        return text.ToString();
    }
}
