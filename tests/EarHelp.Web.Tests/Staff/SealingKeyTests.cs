using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using EarHelp.Clinic.Keeping;
using EarHelp.Web.Serving;
using EarHelp.Web.Tests.Running;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.DependencyInjection;

namespace EarHelp.Web.Tests.Staff;

/// <summary>What the documentation of ASP.NET Core says of keys ("Key storage providers", "Key encryption at rest") holds for ours.</summary>
public sealed class SealingKeyTests : IDisposable
{
    readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("earhelp-keys-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Keys_are_in_the_store_and_open_what_was_sealed_before_a_restart()
    {
        await using var service = await RunningService.StartAsync();
        var sealed1 = SealIn(service);

        await service.StartAgainAsync();

        Assert.Equal("a code", OpenIn(service, sealed1));
        Assert.StartsWith("<key ", Assert.Single(await KeysOfAsync(service)).Body, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(service.Data, "keys")));
    }

    [Fact]
    public async Task With_a_certificate_no_key_stands_in_the_store_as_it_is()
    {
        var file = Path.Combine(_folder.FullName, "keys.pem");
        using (var key = RSA.Create(2048))
        using (var certificate = new CertificateRequest("CN=keys", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1).CreateSelfSigned(DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch.AddYears(200)))
            await File.WriteAllTextAsync(file, certificate.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem());
        await using var service = await RunningService.StartAsync(settings: ["--keys-certificate", file]);
        var sealed1 = SealIn(service);

        await service.StartAgainAsync();

        Assert.Equal("a code", OpenIn(service, sealed1));
        var kept = Assert.Single(await KeysOfAsync(service));
        Assert.Contains("EncryptedData", kept.Body, StringComparison.Ordinal);
        Assert.DoesNotContain("<masterKey", kept.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Keys_that_lie_in_the_folder_are_taken_into_a_store_without_any()
    {
        var sealed1 = string.Empty;
        await using var service = await RunningService.StartAsync(fill: data =>
        {
            using var services = new ServiceCollection().AddDataProtection().SetApplicationName("EarHelp")
                .PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(data, "keys"))).Services.BuildServiceProvider();
            sealed1 = services.GetRequiredService<IDataProtectionProvider>().CreateProtector("staff").Protect("a code");
        });

        Assert.Equal("a code", OpenIn(service, sealed1));
        Assert.Single(await KeysOfAsync(service));
    }

    [Fact]
    public void A_certificate_that_cannot_be_read_is_named_with_what_to_do()
    {
        var refused = Assert.Throws<SettingsException>(() => ServiceHost.Build(["--data", _folder.FullName, "--root", Repository.Root, "--keys-certificate", "nowhere.pem"]));

        Assert.Contains("--keys-certificate", refused.Message, StringComparison.Ordinal);
    }

    static string SealIn(RunningService service) => Protector(service).Protect("a code");

    static string OpenIn(RunningService service, string text) => Protector(service).Unprotect(text);

    static IDataProtector Protector(RunningService service) => service.Services.GetRequiredService<IDataProtectionProvider>().CreateProtector("staff");

    static async Task<IReadOnlyList<SealingKey>> KeysOfAsync(RunningService service) =>
        await service.Services.GetRequiredService<EarHelp.Storage.IStore>().SealingKeys.AllAsync(default);
}
