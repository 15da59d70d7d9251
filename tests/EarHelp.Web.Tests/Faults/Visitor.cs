using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Faults;

/// <summary>A person who comes to the plan, asks for a visit and takes the first time that is free, as many others want it.</summary>
static partial class Visitor
{
    /// <param name="confirms">True: the time is taken for good.</param>
    public static async Task TakeTimeAsync(Person person, bool confirms)
    {
        ArgumentNullException.ThrowIfNull(person);
        await person.ReachPlanAsync();
        var form = await person.ReadAsync("/visit");
        var review = await person.PostAsync("/visit/check", [.. form.FormTo("/visit/check"), new("name", "Jo"), new("number", "07700 900123")]);
        await person.PostAsync("/visit/send", [.. review.FormTo("/visit/send")]);
        for (var page = await person.ReadAsync("/visit/times"); ; page = await person.ReadAsync("/visit/times"))
        {
            var start = Start().Match(page.Html).Groups["start"].Value;
            page = await person.PostAsync("/visit/hold", [.. page.FormTo("/visit/hold"), new("start", start)]);
            var held = page.FormTo("/visit/confirm");
            if (held.Count > 0 && confirms)
                page = await person.PostAsync("/visit/confirm", [.. held]);
            if (page.Html.Contains(confirms ? "href=\"/visit/cancel\"" : "action=\"/visit/confirm\"", StringComparison.Ordinal))
                return;
        }
    }

    [GeneratedRegex("name=\"start\" value=\"(?<start>\\d+)\"")]
    private static partial Regex Start();
}
