using System.Text.Json;
using System.Text.Json.Nodes;
using EarHelp.Cli;
using EarHelp.Cli.Assessing;
using EarHelp.Cli.Commands;

namespace EarHelp.Conformance.Guidelines;

/// <summary>What the shipped edition concludes about a patient with one affected ear, as <c>earhelp assess</c> says it.</summary>
sealed record ShippedAssessment(string? Level, bool IsSettled, bool MayTreat, IReadOnlyList<string> Advice, IReadOnlyList<string> Rules)
{
    static readonly OpenedEdition Opened = Open();

    public static Triage.Editions.Edition Edition => Opened.Edition;

    /// <param name="facts">JSON members. What is not given was asked and is clear.</param>
    /// <param name="isClosed">False: what is not given was not asked.</param>
    public static ShippedAssessment Of(string facts, bool isClosed = true)
    {
        var line = new JsonObject
        {
            ["id"] = "patient",
            ["at"] = "2026-11-20T09:30:00Z",
            ["facts"] = JsonNode.Parse($$"""{"about whom": "me", "where now": "near the clinic", "ears affected": "left", {{facts}}}"""),
        };
        var edition = Opened.Edition;
        var read = new PatientLineReader(edition.Dialog, edition.Clinic.Zone, TimeProvider.System).Read(line.ToJsonString());
        Assert.Empty(read.Faults);
        var (assessed, faults) = new LineAssessor(Opened.Assessor, edition.Clinic, isClosed).Assess(read.Patient!);
        Assert.Empty(faults);
        var answer = JsonDocument.Parse(new AssessedLineJson(edition.Dialog).Write(assessed!)).RootElement;
        return new ShippedAssessment(
            answer.GetProperty("level").GetString(),
            answer.GetProperty("settled").GetBoolean(),
            answer.GetProperty("may_treat").ToString() == "yes",
            Ids(answer.GetProperty("advice")),
            Ids(answer.GetProperty("rules")));
    }

    static string[] Ids(JsonElement list) => [.. list.EnumerateArray().Select(e => e.GetProperty("id").GetString()!)];

    static OpenedEdition Open()
    {
        var root = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(root!.FullName, "EarHelp.sln")))
            root = root.Parent;
        using var input = new StringReader(string.Empty);
        using var error = new StringWriter();
        return OpenedEdition.Open(root.FullName, new Terminal(input, TextWriter.Null, error, root.FullName))
            ?? throw new InvalidOperationException(error.ToString());
    }
}
