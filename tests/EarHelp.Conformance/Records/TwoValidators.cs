using System.Diagnostics;
using System.Text.Json;
using EarHelp.Conformance.Npm;
using EarHelp.Exchange.Fhir;
using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using Task = System.Threading.Tasks.Task;

namespace EarHelp.Conformance.Records;

/// <summary>
/// Two programs that others wrote look at a resource: Firely.Fhir.Validation.R4 with the definitions of HL7 FHIR R4 4.0.1
/// (Hl7.Fhir.Specification.Data.R4), offline, and npm fhir.
/// </summary>
static class TwoValidators
{
    static readonly Lazy<Validator> Definitions = new(() =>
    {
        var definitions = new CachedResolver(ZipSource.CreateValidationSource());
        return new Validator(definitions, new LocalTerminologyService(definitions));
    });

    public static async Task FindNoFaultAsync(string json)
    {
        Assert.Empty(FaultsOf(FhirJson.Read<Resource>(json)));
        Assert.Equal("[]", await ByNpmAsync(json));
    }

    public static IEnumerable<string> FaultsOf(Resource resource) => Definitions.Value.Validate(resource).Issue
        .Where(i => i.Severity is OperationOutcome.IssueSeverity.Error or OperationOutcome.IssueSeverity.Fatal)
        .Select(i => $"{string.Join(' ', i.Expression)}: {i.Details?.Text}");

    /// <summary>The faults that npm fhir finds, as a JSON array.</summary>
    public static async Task<string> ByNpmAsync(string json)
    {
        var start = new ProcessStartInfo(NpmPackages.Node) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Records", "validate.mjs"));
        start.ArgumentList.Add(NpmPackages.PathOf("fhir", "package.json"));
        using var node = Process.Start(start)!;
        await node.StandardInput.WriteAsync(json);
        node.StandardInput.Close();
        var found = await node.StandardOutput.ReadToEndAsync();
        await node.WaitForExitAsync();
        Assert.Equal(0, node.ExitCode);
        using var answer = JsonDocument.Parse(found);
        return answer.RootElement.GetProperty("messages").GetRawText();
    }
}
