namespace Benchmarks.Serving;

/// <summary>Posts the same form again and again and reads the answer.</summary>
sealed class BareSender(Uri address, string form) : ITurnSender
{
    readonly HttpClient _client = new();

    public Task PrepareAsync() => Task.CompletedTask;

    public async Task SendAsync()
    {
        using var body = new StringContent(form);
        using var response = await _client.PostAsync(new Uri(address, "/answer"), body);
        await response.Content.ReadAsStringAsync();
    }

    public void Dispose() => _client.Dispose();
}
