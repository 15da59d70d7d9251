using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using EarHelp.Web.Tests.Running;

namespace EarHelp.Web.Tests.Serving;

[Collection(OneService.Name)]
public sealed partial class WeightTests(SharedService service)
{
    /// <summary>For a poor connection abroad.</summary>
    const int MostBytes = 20 * 1024;

    const int MostRequests = 3;

    [Fact]
    public async Task The_first_page_with_everything_is_light()
    {
        using var patient = service.Running.NewPatient();
        var page = await patient.ReadAsync("/");
        var files = Own().Matches(page.Html).Select(m => m.Groups["a"].Value).Distinct().ToList();
        var bytes = Compressed(Encoding.UTF8.GetBytes(page.Html));
        foreach (var file in files)
            bytes += Compressed(Encoding.UTF8.GetBytes((await patient.ReadAsync(file)).Html));

        Assert.True(files.Count + 1 <= MostRequests, $"{files.Count + 1} requests");
        Assert.True(bytes <= MostBytes, $"{bytes} bytes");
    }

    [Fact]
    public async Task No_page_names_another_site()
    {
        using var patient = service.Running.NewPatient();
        foreach (var address in (string[])["/", "/about", "/privacy", "/accessibility", "/abroad", "/left", "/nowhere"])
        {
            var page = await patient.ReadAsync(address);

            Assert.All(Loaded().Matches(page.Html), m => Assert.Matches("^(/|data:)", m.Groups["a"].Value));
        }
    }

    static int Compressed(byte[] bytes)
    {
        using var to = new MemoryStream();
        using (var gzip = new GZipStream(to, CompressionLevel.Optimal))
            gzip.Write(bytes);
        return to.ToArray().Length;
    }

    [GeneratedRegex("(href|src)=\"(?<a>/look/[^\"]+)\"")]
    private static partial Regex Own();

    /// <summary>What a browser loads by itself; a link is followed by a person only.</summary>
    [GeneratedRegex("(<link[^>]* href|src|action)=\"(?<a>[^\"]+)\"")]
    private static partial Regex Loaded();
}
