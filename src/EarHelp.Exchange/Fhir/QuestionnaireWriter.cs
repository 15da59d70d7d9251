using EarHelp.Clinic.Times;
using EarHelp.Conversation.Telling;
using EarHelp.Triage.Answers;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using Hl7.Fhir.Model;

namespace EarHelp.Exchange.Fhir;

/// <summary>Writes the questions of a dialog as a Questionnaire (HL7 FHIR R4): one item a fact of the person, and the same for each ear.</summary>
/// <remarks>Every choice also takes "not sure". A number or a date is a group with its ends, since it may be a range.</remarks>
public sealed class QuestionnaireWriter(Edition edition, LetterWriter words)
{
    readonly RecordAddress _address = RecordAddress.Of(edition);

    static readonly Ear[] Ears = [Ear.Left, Ear.Right, Ear.Either];

    /// <param name="isSigned">False: an example that no clinician of the clinic has signed.</param>
    public Questionnaire Write(bool isSigned) => new()
    {
        Id = edition.Dialog.Id,
        Url = _address.Questionnaire(edition.Dialog),
        Version = edition.Id,
        Name = "Triage_" + edition.Dialog.Id,
        Title = words.Text("service at clinic"),
        Status = isSigned ? PublicationStatus.Active : PublicationStatus.Draft,
        Experimental = !isSigned,
        Publisher = edition.Clinic.Name,
        Language = words.Language,
        SubjectType = [ResourceType.Patient],
        Item =
        [
            .. edition.Dialog.Facts.Where(f => f.About == About.Person).Select(f => Item(f, null)),
            .. Ears.Select(EarGroup),
        ],
    };

    /// <summary>The identifier of a fact's item.</summary>
    public static string LinkId(string fact, Ear? ear) => ear is { } of ? $"{LinkId(of)}/{fact}" : fact;

    public static string LinkId(Ear ear) => ear switch
    {
        Ear.Left => "left ear",
        Ear.Right => "right ear",
        _ => "either ear",
    };

    Questionnaire.ItemComponent EarGroup(Ear ear)
    {
        var group = new Questionnaire.ItemComponent
        {
            LinkId = LinkId(ear),
            Text = words.EarName(ear),
            Type = Questionnaire.QuestionnaireItemType.Group,
            Item = [.. edition.Dialog.Facts.Where(f => f.About == About.Ear).Select(f => Item(f, ear))],
        };
        string[] when = ear switch
        {
            Ear.Left => ["left", "both"],
            Ear.Right => ["right", "both"],
            _ => [RecordAddress.NotSure],
        };
        if (edition.Dialog.FindFact(KnownFacts.EarsAffected) is { } affected)
            EnableWhen(group, LinkId(affected.Id, null), when);
        return group;
    }

    Questionnaire.ItemComponent Item(Fact fact, Ear? ear)
    {
        var item = new Questionnaire.ItemComponent { LinkId = LinkId(fact.Id, ear), Text = words.QuestionOf(fact.Id, ear), Repeats = true };
        if (fact.Counted is null && fact.Values is FactValues.Named named)
        {
            item.Type = Questionnaire.QuestionnaireItemType.Choice;
            item.AnswerOption = [.. named.Names.Select(n => Option(fact, n)), Option(fact, null)];
        }
        else
        {
            item.Type = Questionnaire.QuestionnaireItemType.Group;
            item.Item = [.. Ends(fact, item.LinkId)];
        }

        foreach (var condition in fact.AppliesWhen)
            EnableWhen(item, condition, ear);
        return item;
    }

    IEnumerable<Questionnaire.ItemComponent> Ends(Fact fact, string link)
    {
        var type = fact.Counted switch
        {
            null => Questionnaire.QuestionnaireItemType.Decimal,
            { Unit: CountUnit.Days } => Questionnaire.QuestionnaireItemType.Date,
            _ => Questionnaire.QuestionnaireItemType.DateTime,
        };
        yield return new() { LinkId = $"{link}/from", Type = type };
        yield return new() { LinkId = $"{link}/to", Type = type };
        yield return new() { LinkId = $"{link}/{RecordAddress.NotSure}", Text = words.Value(fact.Id, null), Type = Questionnaire.QuestionnaireItemType.Boolean };
    }

    Questionnaire.AnswerOptionComponent Option(Fact fact, string? value) => new() { Value = Code(fact.Id, value) };

    /// <param name="value">Null: not sure.</param>
    internal Coding Code(string fact, string? value) => new(_address.Answers, value ?? RecordAddress.NotSure, words.Value(fact, value));

    /// <summary>A fact applies where its condition may hold: where somebody is not sure of that one, too.</summary>
    void EnableWhen(Questionnaire.ItemComponent item, Triage.Rules.Condition condition, Ear? ear)
    {
        if (condition.Of.IsNamedFact || edition.Dialog.Facts[condition.Of.Index] is not { Counted: null, Values: FactValues.Named named } of)
            return;
        EnableWhen(
            item,
            LinkId(of.Id, of.About == About.Ear ? ear : null),
            [.. named.Names.Where((_, i) => condition.Values.Contains(i)), RecordAddress.NotSure]);
    }

    void EnableWhen(Questionnaire.ItemComponent item, string question, string[] answers)
    {
        item.EnableBehavior = Questionnaire.EnableWhenBehavior.Any;
        foreach (var answer in answers)
            item.EnableWhen.Add(new() { Question = question, Operator = Questionnaire.QuestionnaireItemOperator.Equal, Answer = new Coding(_address.Answers, answer) });
    }
}
