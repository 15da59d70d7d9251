using System.Globalization;
using EarHelp.Proof.Findings;

namespace EarHelp.Proof.Tests.Properties;

/// <summary>A finding in one line: its example, its exact number of patients, the lines of its rows.</summary>
static class Told
{
    public static string InBrief(this Finding finding) =>
        $"{finding.Shown?.InWords ?? "nobody"} | {finding.Patients.ToString(CultureInfo.InvariantCulture)} | {string.Join(", ", finding.Rows.Select(r => $"{Path.GetFileName(r.File)}:{r.Line}"))}";
}
