using EarHelp.Conversation.Replies;
using EarHelp.Conversation.Tests;
using EarHelp.Exchange.Fhir;
using Hl7.Fhir.Model;
using Instant = NodaTime.Instant;
using Task = System.Threading.Tasks.Task;

namespace EarHelp.Conformance.Records;

/// <summary>
/// What record systems get, looked at by two programs that others wrote (<see cref="TwoValidators"/>).
/// </summary>
public sealed class RecordTests
{
    static readonly Instant WrittenAt = Instant.FromUtc(2026, 12, 1, 8, 0);

    public static TheoryData<string, bool> Patients
    {
        get
        {
            var patients = new TheoryData<string, bool>();
            foreach (var name in RecordedPatients.Names)
            {
                patients.Add(name, true);
                patients.Add(name, false);
            }

            return patients;
        }
    }

    [Theory]
    [MemberData(nameof(Patients))]
    public async Task Two_validators_find_no_fault_in_a_conversation(string name, bool asksForVisit)
    {
        var bundle = ConversationBundle.Of([RecordedPatients.Of(name, asksForVisit)], WrittenAt);

        await AssertValidAsync(bundle);
    }

    [Fact]
    public async Task Two_validators_find_no_fault_in_the_plan_after_a_visit_and_it_says_what_to_mind_on_which_days()
    {
        var patient = RecordedPatients.Seen("swimmer");

        var bundle = ConversationBundle.Of([patient], WrittenAt);

        await AssertValidAsync(bundle);
        var plan = bundle.Entry.Select(e => e.Resource).OfType<CarePlan>().Single(p => p.Intent == CarePlan.CarePlanIntent.Plan);
        var steps = Clinic.Visits.AftercarePlan.Of(patient.Edition, patient.Visits[0].Visit);
        Assert.Equal(steps.Select(s => patient.Words.Headline(s.Advice, s.Ear)), plan.Activity.Select(a => a.Detail!.Description));
        Assert.Equal(steps.Select(s => $"{s.From:uuuu-MM-dd} {s.To:uuuu-MM-dd}"), plan.Activity.Select(a => (Period)a.Detail!.Scheduled!).Select(p => $"{p.Start} {p.End}"));
        Assert.Contains(plan.Activity, a => a.Detail!.DoNotPerform == true);
        Assert.Equal("Patient/" + patient.ResourceId, plan.Subject!.Reference);
        Assert.Contains(bundle.Entry.Select(e => e.Resource).OfType<Provenance>(), p => p.Target.Exists(t => t.Reference == "CarePlan/" + plan.Id));
        Assert.Equal(bundle.Entry.Count, bundle.Entry.Select(e => e.FullUrl).Distinct().Count());
    }

    [Fact]
    public async Task Two_validators_find_no_fault_in_the_questions()
    {
        var words = OneConversation.Edition.WriterOf(OneConversation.Edition.DefaultLanguage, isSelf: true);

        await AssertValidAsync(new QuestionnaireWriter(OneConversation.Edition.Edition, words).Write(isSigned: false));
    }

    [Fact]
    public async Task Both_validators_find_a_request_without_a_status()
    {
        var request = ConversationBundle.Of([RecordedPatients.Of("swimmer", asksForVisit: true)], WrittenAt).Entry.Select(e => e.Resource).OfType<ServiceRequest>().Single();
        request.Status = null;

        Assert.NotEmpty(TwoValidators.FaultsOf(request));
        Assert.NotEqual("[]", await TwoValidators.ByNpmAsync(FhirJson.Write(request)));
    }

    [Theory]
    [MemberData(nameof(Patients))]
    public void The_same_answers_come_back_from_what_was_written(string name, bool asksForVisit)
    {
        var patient = RecordedPatients.Of(name, asksForVisit);

        var bundle = FhirJson.Read<Bundle>(FhirJson.Write(ConversationBundle.Of([patient], WrittenAt)));

        var response = bundle.Entry.Select(e => e.Resource).OfType<QuestionnaireResponse>().Single();
        var given = patient.Told.Answers.Where(a => a.Value != AnswerTold.NotAnswered).Select(a => new AnswerRead(a.Fact, a.Ear, a.Value));
        Assert.Equal(given.ToHashSet(), ResponseReader.Read(patient.Edition.Dialog, response).ToHashSet());
    }

    /// <summary>HL7 SDC: a response that is completed has only items of its questions, with the same words, and none that is not enabled.</summary>
    [Theory]
    [MemberData(nameof(Patients))]
    public void Every_answer_belongs_to_a_question_that_is_enabled_and_reads_the_same(string name, bool asksForVisit)
    {
        var patient = RecordedPatients.Of(name, asksForVisit);
        var questionnaire = new QuestionnaireWriter(patient.Edition, patient.Words).Write(isSigned: true);
        var questions = questionnaire.Item.SelectMany(All).ToDictionary(i => i.LinkId!, StringComparer.Ordinal);

        var response = new ResponseWriter(patient).Write();

        Assert.Equal($"{questionnaire.Url}|{questionnaire.Version}", response.Questionnaire);
        var items = response.Item.SelectMany(All).ToList();
        var codes = items.ToLookup(i => i.LinkId!, i => i.Answer.Select(a => a.Value).OfType<Coding>().Select(c => c.Code));
        Assert.All(items, item =>
        {
            var question = questions[item.LinkId!];
            Assert.Equal(question.Text, item.Text);
            Assert.True(
                question.EnableWhen.Count == 0
                || question.EnableWhen.Exists(w => codes[w.Question!].SelectMany(c => c).Contains(((Coding)w.Answer!).Code)),
                $"{item.LinkId} is answered but not enabled.");
        });
    }

    [Theory]
    [MemberData(nameof(Patients))]
    public void A_person_is_named_only_where_that_person_asked_for_a_visit(string name, bool asksForVisit)
    {
        var bundle = ConversationBundle.Of([RecordedPatients.Of(name, asksForVisit)], WrittenAt);

        string[] named = ["Patient", "ServiceRequest", "Appointment", "CarePlan"];
        var types = bundle.Entry.Select(e => e.Resource!.TypeName).ToHashSet(StringComparer.Ordinal);
        Assert.All(named, n => Assert.Equal(asksForVisit, types.Contains(n)));
        Assert.Superset(new HashSet<string> { "QuestionnaireResponse", "Communication", "Provenance" }, types);
        Assert.Equal(asksForVisit, FhirJson.Write(bundle).Contains("Voss", StringComparison.Ordinal));
    }

    /// <summary>HL7 FHIR R4, RequestPriority: routine, urgent, asap, stat, each higher than the one before. Which level gets which is common practice.</summary>
    [Theory]
    [InlineData("now", "stat")]
    [InlineData("within hours", "asap")]
    [InlineData("within a day", "urgent")]
    [InlineData("within three days", "urgent")]
    [InlineData("in two weeks", "routine")]
    [InlineData("no hurry", "routine")]
    [InlineData("look after it at home", "routine")]
    public void Each_level_has_its_priority(string level, string priority)
    {
        var levels = OneConversation.Edition.Edition.Dialog.Levels;

        Assert.Equal(7, levels.Length);
        Assert.Equal(priority, levels.Single(l => l.Id == level).Priority);
    }

    [Fact]
    public void A_request_carries_the_priority_and_the_limit_and_the_edition_stands_behind_it()
    {
        var patient = RecordedPatients.Of("swimmer", asksForVisit: true);

        var resources = ConversationBundle.Of([patient], WrittenAt).Entry.Select(e => e.Resource).ToList();

        var request = resources.OfType<ServiceRequest>().Single();
        Assert.Equal((RequestPriority.Urgent, RequestIntent.Proposal), (request.Priority, request.Intent));
        Assert.Equal(patient.Told.SeenBy!.Value.ToDateTimeOffset(), ((Period)request.Occurrence!).EndElement!.ToDateTimeOffset(TimeSpan.Zero));
        Assert.Equal(patient.Edition.Id, resources.OfType<Provenance>().Single().Entity[0].What!.Identifier!.Value);
    }

    [Fact]
    public void An_edition_without_an_address_for_records_is_refused_with_the_mend()
    {
        var patient = RecordedPatients.Of("swimmer", asksForVisit: false);
        var edition = patient.Edition with { Clinic = patient.Edition.Clinic with { RecordAddress = "" } };

        var refused = Assert.Throws<RecordsUnwritableException>(() => ConversationBundle.Of([patient with { Edition = edition }], WrittenAt));

        Assert.Contains("content/clinic.md has no \"record address\"", refused.Message, StringComparison.Ordinal);
    }

    static IEnumerable<Questionnaire.ItemComponent> All(Questionnaire.ItemComponent item) => item.Item.SelectMany(All).Prepend(item);

    static IEnumerable<QuestionnaireResponse.ItemComponent> All(QuestionnaireResponse.ItemComponent item) => item.Item.SelectMany(All).Prepend(item);

    static Task AssertValidAsync(Resource resource) => TwoValidators.FindNoFaultAsync(FhirJson.Write(resource));
}
