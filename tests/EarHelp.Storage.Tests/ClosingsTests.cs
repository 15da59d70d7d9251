using EarHelp.Clinic.Keeping;
using NodaTime;

namespace EarHelp.Storage.Tests;

public sealed class ClosingsTests : IDisposable
{
    readonly string _folder = Directory.CreateTempSubdirectory("earhelp").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public async Task A_closing_and_its_lifting_outlive_an_erasure_and_a_restart()
    {
        var first = new KeptClosing(Instant.FromUtc(2026, 11, 26, 9, 0), new LocalDate(2026, 11, 30), null);
        var second = first with { SetAt = first.SetAt + Duration.FromDays(30) };
        await using (var store = LiteTurnStore.Open(_folder, new StoreOptions()))
        {
            await store.Closings.PutAsync(second, default);
            await store.Closings.PutAsync(first, default);
            await store.Closings.PutAsync(first with { LiftedAt = first.SetAt + Duration.FromHours(1) }, default);
            await store.AppendAsync(SomeTurns.First("c"), [], default);
            await store.EraseAsync("c", default);
        }

        await using var again = LiteTurnStore.Open(_folder, new StoreOptions());

        Assert.Equal([first with { LiftedAt = first.SetAt + Duration.FromHours(1) }, second], (await again.Closings.AllAsync(default)).AsEnumerable());
    }
}
