using EarHelp.Content;
using EarHelp.Content.Sources;
using EarHelp.Triage.Editions;
using EarHelp.Understanding.Lexicons;
using EarHelp.Understanding.Messages;
using EarHelp.Understanding.Readings;
using NodaTime;

namespace EarHelp.Understanding.Tests;

/// <summary>The words of the repository's edition.</summary>
static class Some
{
    static readonly Lazy<Edition> Compiled = new(() =>
    {
        var root = SourceFolder.FindRoot(AppContext.BaseDirectory) ?? throw new InvalidOperationException("No folder above holds dialogs and content.");
        return EditionCompiler.Compile(SourceFolder.Read(root), CompileOptions.Plain).Edition!;
    });

    static readonly Lazy<Lexicon> Words = new(() => Lexicon.Build(Compiled.Value.Dialog, Compiled.Value.Wordings["en"]));

    static readonly Lazy<PhraseBook> Phrases = new(() => PhraseBook.Build(Compiled.Value.Dialog, Compiled.Value.Wordings["en"]));

    public static LocalDate Today { get; } = new(2026, 11, 24);

    public static Dialog Dialog => Compiled.Value.Dialog;

    public static Wording Wording => Compiled.Value.Wordings["en"];

    public static Lexicon Lexicon => Words.Value;

    public static PhraseBook Book => Phrases.Value;

    public static Said Hear(string text) => MessageReader.Read(Book, text, Today);

    /// <summary>A message as the answer to a question about some facts.</summary>
    public static PlainAnswer? Read(string text, params string[] asked)
    {
        var screen = Dialog.Screens.First(s => s.Facts.Contains(Fact(asked[0])));
        return ShortAnswers.Read(Lexicon, text, new AskedNow(screen.Id, [.. asked.Select(Fact)], screen.IsChecklist), Today);
    }

    public static int Fact(string id) => Dialog.FindFact(id)!.Index;

    /// <summary>The value that a message plainly answers to a question about one fact.</summary>
    public static string? Answer(string text, string fact) =>
        Read(text, fact) is { Choices: [var only] } ? only.NotSure ? "not sure" : only.Written : null;
}
