using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Visits;

/// <summary>What people do to ask for a visit, without JavaScript.</summary>
static class Asking
{
    /// <summary>Slowly duller over months: no hurry, the clinic first.</summary>
    public static IReadOnlyDictionary<string, string[]> SlowlyDuller { get; } = new Dictionary<string, string[]>
    {
        ["ears affected"] = ["left"],
        ["hearing"] = ["reduced"],
        ["hearing worsened over"] = ["91..36500"],
        ["hearing changed on"] = ["91..36500"],
        ["looked at"] = ["nobody"],
        ["ear signs"] = ["blocked"],
    };

    /// <summary>Duller over some weeks: seen within two weeks.</summary>
    public static IReadOnlyDictionary<string, string[]> DullForWeeks { get; } = new Dictionary<string, string[]>(SlowlyDuller.Where(a => a.Key != "ear signs"))
    {
        ["hearing worsened over"] = ["4..90"],
        ["hearing changed on"] = ["31..90"],
    };

    public static async Task<PageRead> PlanAsync(Patient patient, IReadOnlyDictionary<string, string[]>? answers = null) =>
        await patient.ReachPlanAsync(await patient.BeginAsync(), answers ?? SlowlyDuller);

    /// <summary>Fills in the form and sends it to be checked.</summary>
    public static async Task<PageRead> CheckAsync(Patient patient, PageRead form, params (string Name, string Value)[] fields) =>
        await patient.PostAsync("/visit/check", form.FormTo("/visit/check").Concat(fields.Select(f => KeyValuePair.Create(f.Name, f.Value))));

    /// <summary>From the plan to the page of the request.</summary>
    public static async Task<PageRead> AskAsync(Patient patient, params (string Name, string Value)[] fields)
    {
        var review = await CheckAsync(patient, await patient.ReadAsync("/visit"), fields);
        return await patient.PostAsync("/visit/send", review.FormTo("/visit/send"));
    }

    public static string CodeOn(PageRead page) =>
        System.Text.RegularExpressions.Regex.Match(page.Html, "id=\"link\" class=\"pen\">(?<code>[^<]+)<").Groups["code"].Value;
}
