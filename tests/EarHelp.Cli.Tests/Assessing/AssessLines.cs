using System.Text.Json;
using EarHelp.Cli.Assessing;
using EarHelp.Triage.Assessments;
using Microsoft.Extensions.Time.Testing;

namespace EarHelp.Cli.Tests.Assessing;

/// <summary>Assesses single lines over the invented dialog.</summary>
static class AssessLines
{
    static readonly Assessor Assessor = Assessor.Build(SomeDialog.Make());

    /// <summary>The clock of the tests: a Friday morning.</summary>
    public static readonly DateTimeOffset Now = new(2026, 11, 20, 9, 30, 0, TimeSpan.Zero);

    public static JsonElement Answer(string line, bool isClosed = false)
    {
        var (written, faults) = Assess(line, isClosed);
        Assert.Empty(faults);
        return JsonDocument.Parse(written!).RootElement;
    }

    public static string Fault(string line) => Assert.Single(Assess(line, isClosed: false).Faults);

    public static (string? Written, IReadOnlyList<string> Faults) Assess(string line, bool isClosed)
    {
        var clinic = SomeDialog.Clinic();
        var read = new PatientLineReader(Assessor.Dialog, clinic.Zone, new FakeTimeProvider(Now)).Read(line);
        if (read.Patient is null)
            return (null, read.Faults);
        var (assessed, faults) = new LineAssessor(Assessor, clinic, isClosed).Assess(read.Patient);
        return (assessed is null ? null : new AssessedLineJson(Assessor.Dialog).Write(assessed), faults);
    }

    public static string[] Ids(this JsonElement of, string list) =>
        [.. of.GetProperty(list).EnumerateArray().Select(e => e.ValueKind == JsonValueKind.String ? e.GetString()! : e.GetProperty("id").GetString()!)];
}
