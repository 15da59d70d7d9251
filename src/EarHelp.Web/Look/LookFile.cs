using System.Collections.Immutable;
using System.IO.Compression;
using System.Reflection;
using System.Security.Cryptography;

namespace EarHelp.Web.Look;

/// <summary>A file of the look, addressed by its own hash, so that a browser may keep it for ever; compressed once, at start.</summary>
public sealed class LookFile
{
    readonly byte[] _plain;
    readonly byte[] _brotli;
    readonly byte[] _gzip;

    LookFile(string name, string contentType)
    {
        _plain = Read(name);
        _brotli = Compress(_plain, to => new BrotliStream(to, CompressionLevel.SmallestSize));
        _gzip = Compress(_plain, to => new GZipStream(to, CompressionLevel.SmallestSize));
        ContentType = contentType;
        Address = $"/look/{Convert.ToHexStringLower(SHA256.HashData(_plain))[..16]}/{name}";
    }

    public static LookFile Sheet { get; } = new("earhelp.css", "text/css; charset=utf-8");

    public static LookFile Script { get; } = new("earhelp.js", "text/javascript; charset=utf-8");

    /// <summary>Only on pages of staff.</summary>
    public static LookFile StaffScript { get; } = new("staff.js", "text/javascript; charset=utf-8");

    public static ImmutableArray<LookFile> All { get; } = [Sheet, Script, StaffScript];

    public string Address { get; }

    public string ContentType { get; }

    /// <summary>A drawing, to be written into a page.</summary>
    internal static byte[] Read(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream($"EarHelp.Web.Look.{name}")
            ?? throw new InvalidOperationException($"The program lacks its file \"{name}\".");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    public Task SendAsync(HttpContext context)
    {
        var response = context.Response;
        var accepted = context.Request.Headers.AcceptEncoding.ToString();
        var (encoding, bytes) = accepted.Contains("br", StringComparison.Ordinal) ? ("br", _brotli)
            : accepted.Contains("gzip", StringComparison.Ordinal) ? ("gzip", _gzip)
            : (null, _plain);
        response.ContentType = ContentType;
        response.Headers.CacheControl = "public, max-age=31536000, immutable";
        response.Headers.Vary = "Accept-Encoding";
        if (encoding is not null)
            response.Headers.ContentEncoding = encoding;
        response.ContentLength = bytes.Length;
        return response.Body.WriteAsync(bytes, 0, bytes.Length, context.RequestAborted);
    }

    static byte[] Compress(byte[] plain, Func<Stream, Stream> around)
    {
        using var to = new MemoryStream();
        using (var compressing = around(to))
            compressing.Write(plain);
        return to.ToArray();
    }
}
