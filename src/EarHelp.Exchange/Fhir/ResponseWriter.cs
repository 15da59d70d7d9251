using System.Globalization;
using EarHelp.Conversation.Replies;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Facts;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>Writes what was answered as a QuestionnaireResponse to the questions of its edition.</summary>
public sealed class ResponseWriter(ExportedConversation conversation)
{
    readonly RecordAddress _address = RecordAddress.Of(conversation.Edition);
    readonly QuestionnaireWriter _questions = new(conversation.Edition, conversation.Words);

    public QuestionnaireResponse Write()
    {
        var questionnaire = _questions.Write(isSigned: true);
        var answers = conversation.Told.Answers
            .Where(a => a.Value != AnswerTold.NotAnswered)
            .ToDictionary(a => QuestionnaireWriter.LinkId(a.Fact, a.Ear), StringComparer.Ordinal);
        return new QuestionnaireResponse
        {
            Id = conversation.ResourceId,
            Identifier = new Identifier(_address.Conversations, conversation.Id),
            Questionnaire = $"{questionnaire.Url}|{questionnaire.Version}",
            Status = conversation.IsAmended ? QuestionnaireResponse.QuestionnaireResponseStatus.Amended : QuestionnaireResponse.QuestionnaireResponseStatus.Completed,
            AuthoredElement = new FhirDateTime(conversation.Told.DecidedAt.ToDateTimeOffset()),
            Language = conversation.Words.Language,
            Item = [.. questionnaire.Item.SelectMany(i => Items(i, answers))],
        };
    }

    /// <summary>In the order of the questions; what was not answered is left out.</summary>
    IEnumerable<QuestionnaireResponse.ItemComponent> Items(Questionnaire.ItemComponent question, Dictionary<string, AnswerTold> answers)
    {
        if (answers.TryGetValue(question.LinkId!, out var answer))
            return Answered(question, answer);
        if (question.Type != Questionnaire.QuestionnaireItemType.Group)
            return [];
        List<QuestionnaireResponse.ItemComponent> parts = [.. question.Item.SelectMany(i => Items(i, answers))];
        return parts.Count == 0 ? [] : [new() { LinkId = question.LinkId, Text = question.Text, Item = parts }];
    }

    IEnumerable<QuestionnaireResponse.ItemComponent> Answered(Questionnaire.ItemComponent question, AnswerTold answer)
    {
        IEnumerable<string?> values = answer.Value is { } written ? [.. written.Split(", ")] : [null];
        return question.Type == Questionnaire.QuestionnaireItemType.Choice
            ? [new() { LinkId = question.LinkId, Text = question.Text, Answer = [.. values.Select(v => new QuestionnaireResponse.AnswerComponent { Value = _questions.Code(answer.Fact, v) })] }]
            : values.Select(v => new QuestionnaireResponse.ItemComponent { LinkId = question.LinkId, Text = question.Text, Item = [.. Ends(question, v)] });
    }

    static IEnumerable<QuestionnaireResponse.ItemComponent> Ends(Questionnaire.ItemComponent question, string? value)
    {
        var (from, to, unsure) = (question.Item[0], question.Item[1], question.Item[2]);
        if (value is null)
            return [End(unsure, new FhirBoolean(true))];
        var ends = value.Split("..", 2);
        return [End(from, Typed(from, ends[0])), End(to, Typed(to, ends[^1]))];
    }

    static QuestionnaireResponse.ItemComponent End(Questionnaire.ItemComponent question, DataType value) =>
        new() { LinkId = question.LinkId, Text = question.Text, Answer = [new() { Value = value }] };

    static DataType Typed(Questionnaire.ItemComponent question, string written) => question.Type switch
    {
        Questionnaire.QuestionnaireItemType.Date => new Date(written),
        Questionnaire.QuestionnaireItemType.DateTime => new FhirDateTime(written),
        _ => new FhirDecimal(decimal.Parse(written, NumberStyles.Number, CultureInfo.InvariantCulture)),
    };
}
