using System.Collections.Concurrent;
using System.Collections.Immutable;
using EarHelp.Content.Problems;
using EarHelp.Content.Reading;
using EarHelp.Content.Sources;

namespace EarHelp.Content.Tests.Editions;

/// <summary>Reads each file once, however many editions it is part of.</summary>
sealed class KeptPages
{
    readonly ConcurrentDictionary<SourceFile, (Page Page, ImmutableArray<Problem> Problems)> _read = new();

    public Page Read(SourceFile file, ProblemList problems)
    {
        var (page, found) = _read.GetOrAdd(file, static f =>
        {
            var own = new ProblemList();
            return (PageReader.Read(f, own), own.Sorted());
        });
        foreach (var problem in found)
            problems.Add(problem.Code, problem.Spot, problem.Fault, problem.Mend);
        return page;
    }
}
