using BenchmarkDotNet.Running;
using Benchmarks.Rules;
using Benchmarks.Serving;
using Benchmarks.Store;
using Benchmarks.Understanding;

const string Usage = """
    dotnet run -c Release --project tests/Benchmarks -- WHAT

      triage   levels, whole assessments, the next question; beside RulesEngine in the same run; loading the edition
      proof    the whole proof of the shipped edition, and comparing two editions
      start    process start to the first served page; a folder after it: also of what was published there
      page     bytes and requests of the first page
      store    durable turns a second of the store, beside a plain synced file in the same run
      understand  how well messages are read; files after it: those messages; --totals before them: totals only
      load     turns a second of the page and the bot endpoint, beside the SDK's echo bot in the same run; an address after it:
               only the page of the service that runs there, for a profile
    """;

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
        await PageReport.WeighAsync();
        return 0;
    case "store":
        await StoreReport.RunAsync();
        return 0;
    case "understand":
        UnderstandingReport.Run(args[1..]);
        FirstMessageReport.Run();
        return 0;
    case "load" when args.Length > 1:
        await LoadReport.RunPageAsync(new Uri(args[1]));
        return 0;
    case "load":
        await LoadReport.RunAsync();
        return 0;
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
