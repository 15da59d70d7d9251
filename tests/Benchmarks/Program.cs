using BenchmarkDotNet.Running;
using Benchmarks.Figures;
using Benchmarks.Rules;
using Benchmarks.Serving;
using Benchmarks.Store;
using Benchmarks.Understanding;

const string Usage = """
    dotnet run -c Release --project tests/Benchmarks -- WHAT

      triage   levels, whole assessments, the next question; beside RulesEngine in the same run; loading the edition
      proof    the whole proof of the shipped edition, and comparing two editions
      table    how the service serves, all of it with its targets: load, stored, spread and page; a number after it: as for stored
      start    process start to the first served page; a folder after it: also of what was published there
      page     bytes and requests of the first page, and how soon it can be used over a slow connection
      store    durable turns a second of the store, beside a plain synced file in the same run
      understand  how well messages are read; files after it: those messages; --totals before them: totals only
      load     turns a second of the page and the bot endpoint, on a file and on PostgreSQL, beside the SDK's echo bot in the
               same run; addresses after it: only the page of the services that run there, for a profile or a comparison
      stored   what many kept conversations cost: a turn among 1,000,000 of them (or the number after it), the
               start and the memory with 100,000
      memory   the memory with 100,000 open conversations alone
      spread   how soon an edition that is published elsewhere is served at two nodes
      clinics  four clinics on one PostgreSQL server, and how many there could be
    """;

var served = new FigureTable("what");
switch (args.FirstOrDefault())
{
    case "triage":
        BenchmarkRunner.Run<LevelBenchmarks>();
        NextQuestionTimes.Run();
        return 0;
    case "proof":
        ProofTimes.Run();
        return 0;
    case "start":
        await PageReport.TimeStartsAsync(args.ElementAtOrDefault(1));
        return 0;
    case "page":
        await PageReport.AddFirstPageAsync(served);
        break;
    case "store":
        await StoreReport.RunAsync();
        return 0;
    case "understand":
        UnderstandingReport.Run(args[1..]);
        FirstMessageReport.Run();
        return 0;
    case "load" when args.Length > 1:
        await LoadReport.RunPagesAsync([.. args[1..].Select(a => new Uri(a))]);
        return 0;
    case "load":
        await LoadReport.AddAsync(served);
        break;
    case "stored":
        await StoredReport.AddAsync(served, args.ElementAtOrDefault(1));
        break;
    case "memory":
        await StoredReport.AddMemoryAsync(served);
        break;
    case "spread":
        await SpreadReport.AddAsync(served);
        break;
    case "clinics":
        await ClinicsReport.AddAsync(served);
        break;
    case "table":
        await LoadReport.AddAsync(served);
        await StoredReport.AddAsync(served, args.ElementAtOrDefault(1));
        await SpreadReport.AddAsync(served);
        await PageReport.AddFirstPageAsync(served);
        break;
    case BareServer.Name:
        await BareServer.ServeAsync(args[1], args[2]);
        return 0;
    case EchoBot.Name:
        await EchoBot.ServeAsync(args[1], args[2]);
        return 0;
    default:
        Console.Error.WriteLine(Usage);
        return 2;
}

served.Print(Console.Out);
return 0;
