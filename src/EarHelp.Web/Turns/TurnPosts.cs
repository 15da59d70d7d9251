using System.Collections.Immutable;
using System.Globalization;
using EarHelp.Conversation.Keeping;
using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Taking;
using EarHelp.Conversation.Turns;
using EarHelp.Web.Editions;
using EarHelp.Web.Pages;
using EarHelp.Web.Security;
using NodaTime;

namespace EarHelp.Web.Turns;

/// <summary>The forms that are turns of a conversation.</summary>
public sealed partial class TurnPosts(
    Talk talk, FormGate gate, ServedEditions editions, FaultPages faults, TurnResponse answer, TimeProvider clock, ILogger<TurnPosts> log)
{
    /// <summary>What is written beside an answer is a turn of its own, right after it.</summary>
    const string WordsAfter = "-words";

    Instant Now => Instant.FromDateTimeOffset(clock.GetUtcNow());

    public async Task AnswerAsync(HttpContext context)
    {
        if (await gate.ReadAsync(context) is not { } sent)
            return;
        if (sent.Turn is not { } turn)
        {
            await faults.SendAsync(context, StatusCodes.Status400BadRequest);
            return;
        }

        try
        {
            await AnswerAsync(context, sent, turn);
        }
        catch (Exception failure) when (editions.Current is { } served && failure is StoreFailedException or EditionGoneException)
        {
            LogLost(log, failure.Message);
            var read = new AnswerReader(sent.Fields, Words.First(served)).Read(question: null);
            await answer.SendAsync(context, sent, talk.Lost(Turns(turn, sent.Question, read)));
        }
    }

    async Task AnswerAsync(HttpContext context, SentForm sent, string turn)
    {
        var conversation = await talk.FindAsync(sent.Secret, context.RequestAborted);
        if (conversation is null && sent.Question is { AskedInTurn: > 1 })
            await faults.SendExpiredAsync(context);
        else if (conversation is null)
            await BeginAsync(context, sent, turn);
        else
            await GoOnAsync(context, sent, turn, conversation);
    }

    public async Task ConfirmAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var isRight = sent.Fields[ReadBackForm.Right] == "yes";
        var parts = sent.Fields[ReadBackForm.Part];
        var understood = conversation.Open is Reply.Confirm readBack && readBack.Name == sent.Question ? readBack.Understood : [];
        ImmutableArray<ChosenAnswer> answers = isRight ? [.. understood.Where((_, i) => parts.Contains(i.ToString(CultureInfo.InvariantCulture))).Select(u => new ChosenAnswer(u.Fact, u.Value, NotSure: false))] : [];
        await TakeAsync(context, sent, conversation, new Turn(turn, sent.Question, new TurnContent.Chosen(answers, NoneOfThese: false)));
    }

    public async Task ChangeAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var screen = sent.Fields[FormFields.Screen].ToString();
        var ear = FormFields.ReadEar(sent.Fields[FormFields.Ear]);
        await TakeAsync(context, sent, conversation, new Turn(turn, null, new TurnContent.Change(screen, ear)));
    }

    /// <summary>A topic of the list, or a question in the person's own words.</summary>
    public async Task AskAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is not var (sent, turn, conversation))
            return;
        var topic = sent.Fields[AnswersPage.Topic].ToString();
        TurnContent content = topic.Length > 0
            ? new TurnContent.AskAbout(topic)
            : new TurnContent.Typed(sent.Fields[AnswersPage.Question].ToString());
        await TakeAsync(context, sent, conversation, new Turn(turn, null, content));
    }

    public async Task SomethingChangedAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is var (sent, turn, conversation))
            await TakeAsync(context, sent, conversation, new Turn(turn, null, new TurnContent.SomethingChanged()));
    }

    /// <summary>After something was withdrawn or corrected.</summary>
    public async Task ResumeAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is var (sent, turn, conversation))
            await TakeAsync(context, sent, conversation, new Turn(turn, null, new TurnContent.GoOn()));
    }

    /// <summary>Whether clinicians may read what was not understood.</summary>
    public async Task ShareAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is var (sent, turn, conversation))
            await TakeAsync(context, sent, conversation, new Turn(turn, null, new TurnContent.ShareWords(sent.Fields["share"] == "yes")));
    }

    public async Task StartOverAsync(HttpContext context)
    {
        if (await gate.OpenAsync(context) is var (sent, turn, conversation))
            await TakeAsync(context, sent, conversation, new Turn(turn, null, new TurnContent.StartOver()));
    }

    async Task BeginAsync(HttpContext context, SentForm sent, string turn)
    {
        if (editions.Current is not { } served)
        {
            await faults.SendEmergencyAsync(context, isNotSaved: true);
            return;
        }

        var words = Words.First(served);
        var opening = talk.Opening(served);
        var question = opening.OfType<Reply.Ask>().LastOrDefault()?.Question;
        var read = new AnswerReader(sent.Fields, words).Read(question);
        if (!read.Faults.IsEmpty)
        {
            var token = FormToken.For(sent.Secret);
            var page = StartPage.Write(words, opening, token, turn, Now, new FilledForm(sent.Fields, read.Faults));
            await PageResponse.SendAsync(context, page, StatusCodes.Status422UnprocessableEntity);
            return;
        }

        var taken = await talk.BeginAsync(sent.Secret, Turns(turn, question?.Name, read), context.RequestAborted);
        await answer.SendAsync(context, sent, taken);
    }

    async Task GoOnAsync(HttpContext context, SentForm sent, string turn, OpenConversation conversation)
    {
        var asked = conversation.Asked is { } question && question.Name == sent.Question ? question : null;
        var read = new AnswerReader(sent.Fields, conversation.Words).Read(asked);
        if (asked is not null && !read.Faults.IsEmpty)
            await answer.SendFaultsAsync(context, sent, conversation, turn, new FilledForm(sent.Fields, read.Faults));
        else
            await TakeAsync(context, sent, conversation, [.. Turns(turn, sent.Question, read)]);
    }

    async Task TakeAsync(HttpContext context, SentForm sent, OpenConversation conversation, params ImmutableArray<Turn> turns)
    {
        var taken = await talk.TakeAsync(conversation, turns, context.RequestAborted);
        await answer.SendAsync(context, sent, taken);
    }

    static ImmutableArray<Turn> Turns(string turn, QuestionName? question, ReadAnswer read)
    {
        var turns = ImmutableArray.CreateBuilder<Turn>(2);
        if (read.Chosen is not null)
            turns.Add(new Turn(turn, question, read.Chosen));
        if (read.Typed is not null)
            turns.Add(read.Chosen is null ? new Turn(turn, question, read.Typed) : new Turn(turn + WordsAfter, null, read.Typed));
        return turns.ToImmutable();
    }

    /// <summary>The reason is the store's own and holds nothing that a person wrote.</summary>
    [LoggerMessage(Level = LogLevel.Error, Message = "An answer was not saved. {Reason}")]
    static partial void LogLost(ILogger log, string reason);
}
