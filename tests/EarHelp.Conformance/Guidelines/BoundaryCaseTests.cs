namespace EarHelp.Conformance.Guidelines;

/// <summary>
/// Cases just at, under and over the bounds of published guidelines. The expected level is written from the source named with each
/// case, not from what the tables give; where two sources differ, the earlier limit is expected.
/// </summary>
public class BoundaryCaseTests
{
    const string AgeOf45 = "\"age\": 45";

    [Theory]
    [InlineData("BC-06", "NG98 1.1.2", "no look since the change: it explains nothing", "within a day", """
        "hearing": "reduced", "hearing worsened over": 0, "days since hearing changed": 1, "looked at": "nobody"
        """)]
    [InlineData("BC-08", "NG98 1.1.2", "cleared, and the hearing did not come back", "within a day", """
        "hearing": "reduced", "hearing worsened over": 0, "days since hearing changed": 1, "looked at": "clear ear", "ear cleaned lately": "yes"
        """)]
    [InlineData("BC-09", "NHS, Earache", "pain for four days", "within three days", """
        "pain": "yes", "pain strength": 3, "days of pain": 4
        """)]
    [InlineData("BC-10", "NHS, Earache", "pain for three days exactly", "look after it at home", """
        "pain": "yes", "pain strength": 3, "days of pain": 3
        """)]
    [InlineData("BC-11", "AAO-HNSF guideline on acute otitis externa, 2014", "pain and discharge with diabetes", "within a day", """
        "pain": "yes", "pain strength": 3, "days of pain": 4, "discharge": "yes", "diabetes": "yes"
        """)]
    [InlineData("BC-12", "AAO-HNSF guideline on acute otitis externa, 2014", "47 hours of treatment", "look after it at home", """
        "ear medicine": "yes", "no better with ear medicine": "yes", "hours of ear medicine": 47
        """)]
    [InlineData("BC-12, at the bound", "AAO-HNSF guideline on acute otitis externa, 2014", "48 hours of treatment", "within three days", """
        "ear medicine": "yes", "no better with ear medicine": "yes", "hours of ear medicine": 48
        """)]
    [InlineData("BC-13", "NG98 1.1.4", "weak immunity, no better in 72 hours", "within a day", """
        "pain": "yes", "pain strength": 3, "days of pain": 3, "discharge": "yes", "weak immunity": "yes", "hearing": "reduced",
        "hearing worsened over": 5, "days since hearing changed": 5, "looked at": "infection",
        "ear medicine": "yes", "no better with ear medicine": "yes", "hours of ear medicine": 72
        """)]
    [InlineData("BC-17", "NICE NG232, Head injury, 2023", "a knock two days ago, blood from the ear", "now", """
        "head injury": "yes", "head injury danger": "yes", "bleeding": "yes"
        """)]
    [InlineData("BC-18", "NG98 1.1.2; window of 21 days: common practice", "a knock before the window, dull over 40 days", "in two weeks", """
        "hearing": "reduced", "hearing worsened over": 40, "days since hearing changed": 40, "looked at": "nobody"
        """)]
    [InlineData("BC-19", "Acta Otorhinolaryngologica Italica, injury by a lithium cell, 2023", "a missing battery, black fluid", "now", """
        "battery in the ear": "yes", "discharge": "yes"
        """)]
    [InlineData("BC-20", "NICE NG127, 2019; the earlier of two limits", "short spins on rolling over, walks well", "within three days", """
        "spinning": "yes", "spinning lasts": "under a minute"
        """)]
    [InlineData("BC-21", "NICE NG127, 2019", "spinning for six hours, cannot walk straight", "within hours", """
        "spinning": "yes", "spinning lasts": "longer", "unsteady walking": "yes"
        """)]
    [InlineData("BC-22", "Stroke Association, signs of a stroke; by name NICE NG128", "the face drooped this morning, now well", "now", """
        "face drooping": "yes"
        """)]
    [InlineData("BC-26", "common practice", "fuller on the first day of drops, no pain", "look after it at home", """
        "blocked": "yes", "drops made it worse": "yes"
        """)]
    [InlineData("BC-01", "NG98 1.1.2", "3 days, 30 days ago", "within a day", """
        "hearing": "reduced", "hearing worsened over": 3, "days since hearing changed": 30, "looked at": "clear ear"
        """)]
    [InlineData("BC-02", "NG98 1.1.2", "3 days, 31 days ago", "in two weeks", """
        "hearing": "reduced", "hearing worsened over": 3, "days since hearing changed": 31, "looked at": "clear ear"
        """)]
    [InlineData("BC-03", "NG98 1.1.2", "4 days, 4 days ago: the guideline's limit stands", "in two weeks", """
        "hearing": "reduced", "hearing worsened over": 4, "days since hearing changed": 4, "looked at": "nobody"
        """)]
    [InlineData("BC-04", "NG98 1.1.2", "90 days", "in two weeks", """
        "hearing": "reduced", "hearing worsened over": 90, "days since hearing changed": 90, "looked at": "nobody"
        """)]
    [InlineData("BC-05", "NG98", "91 days", "no hurry", """
        "hearing": "reduced", "hearing worsened over": 91, "days since hearing changed": 91, "looked at": "nobody"
        """)]
    [InlineData("BC-23", "Int J Audiol 2020 would reassure; the earlier limit stands (NG98 1.1.2)", "a little duller 20 hours after suction", "within a day", """
        "ear cleaned lately": "yes", "suction was used": "yes", "hearing": "reduced", "hearing worsened over": 0, "days since hearing changed": 1, "looked at": "wax"
        """)]
    [InlineData("BC-24", "NG98 1.1.2", "much worse 30 hours after suction", "within a day", """
        "ear cleaned lately": "yes", "suction was used": "yes", "hearing": "gone", "hearing worsened over": 1, "days since hearing changed": 1, "looked at": "nobody"
        """)]
    [InlineData("BC-25", "AAO-HNSF 2014 and 2017", "pain of six after suction, diabetes", "within a day", """
        "ear cleaned lately": "yes", "pain": "yes", "pain strength": 6, "days of pain": 1, "diabetes": "yes"
        """)]
    [InlineData("BC-27", "product text of peroxide drops: stop; NICE NG127", "spinning on the second day of drops", "within three days", """
        "blocked": "yes", "drops made it worse": "yes", "still worse after drops": "no", "spinning": "yes", "spinning lasts": "longer"
        """)]
    [InlineData("BC-28", "product text of peroxide drops", "the taste of drops in the throat", "within three days", """
        "blocked": "yes", "air or taste through the ear": "yes"
        """)]
    [InlineData("BC-29", "common practice", "no pain, not dizzy, no discharge", "look after it at home", """
        "pain": "no", "spinning": "no", "unsteady walking": "no", "discharge": "no", "hearing": "usual"
        """)]
    [InlineData("BC-32", "NICE NG155", "ringing in both ears, mild", "no hurry", """
        "ear noise": "yes", "hearing": "usual"
        """)]
    [InlineData("BC-33", "RNID; the limit is common practice", "ringing in time with the pulse", "in two weeks", """
        "ear noise": "yes", "pulsing noise": "yes"
        """)]
    [InlineData("BC-34", "NHS, Mastoiditis", "a tender swelling behind a sore ear, fever", "within hours", """
        "swelling behind the ear": "yes", "pain": "yes", "pain strength": 5, "days of pain": 1, "fever": "yes", "temperature": 38.4
        """)]
    [InlineData("BC-35", "NICE CKS, otitis externa", "a sore canal after swimming, pain of five", "within three days", """
        "swam lately": "yes", "pain": "yes", "pain strength": 5, "days of pain": 1
        """)]
    [InlineData("BC-36", "NHS Tayside leaflet; MSD Manual: checked on the same day", "warfarin, spots of blood after suction, stopped", "within a day", """
        "ear cleaned lately": "yes", "suction was used": "yes", "bleeding": "yes", "bleeding goes on": "no", "blood thinners": "yes"
        """)]
    [InlineData("BC-37", "common practice", "warfarin, blood still dripping", "within hours", """
        "ear cleaned lately": "yes", "bleeding": "yes", "bleeding goes on": "yes", "blood thinners": "yes"
        """)]
    [InlineData("BC-38", "NHS Tayside; the earlier of two limits", "the only hearing ear, blocked slowly over two months", "within a day", """
        "only hearing ear": "yes", "blocked": "yes", "hearing": "reduced", "hearing worsened over": 60, "days since hearing changed": 60, "looked at": "nobody"
        """)]
    [InlineData("BC-39", "RCEM Learning", "a live insect, a drum once perforated", "within a day", """
        "something in the ear": "yes", "what is in the ear": "live insect", "hole ever": "yes"
        """)]
    [InlineData("BC-40", "Divers Alert Network", "scuba yesterday, ear full, off balance", "now", """
        "diving trouble": "yes", "blocked": "yes"
        """)]
    public void A_case_at_a_bound_gets_the_level_of_its_source(string id, string source, string story, string level, string facts)
    {
        var assessed = ShippedAssessment.Of($"{AgeOf45}, {facts}");

        Assert.True(level == assessed.Level, $"{id} ({story}; {source}): {level} was expected, {assessed.Level} by {string.Join(", ", assessed.Rules)} came.");
    }

    /// <summary>BC-07: NG98 1.1.2 asks for hearing loss that nothing explains; wax that is seen and cleared explained it.</summary>
    [Fact]
    public void Hearing_that_came_back_after_the_wax_was_seen_and_cleared_is_no_sudden_loss()
    {
        var assessed = ShippedAssessment.Of($"{AgeOf45}, \"hearing\": \"usual\", \"ear cleaned lately\": \"yes\"");

        Assert.Equal("look after it at home", assessed.Level);
    }

    /// <summary>BC-14 and BC-15, NICE CKS, Earwax: the drops are shut for six weeks after an infection, and until a grommet has been out for 18 months.</summary>
    [Theory]
    [InlineData("\"infection this year\": \"yes\", \"days since infection ended\": 41", false)]
    [InlineData("\"infection this year\": \"yes\", \"days since infection ended\": 42", true)]
    [InlineData("\"grommet ever\": \"yes\", \"grommet out for\": 17", false)]
    [InlineData("\"grommet ever\": \"yes\", \"grommet out for\": 18", true)]
    public void Drops_open_on_the_day_that_their_gate_names(string history, bool isOpen)
    {
        var assessed = ShippedAssessment.Of($"{AgeOf45}, \"blocked\": \"yes\", {history}");

        Assert.Equal(isOpen, assessed.Advice.Contains("softening drops"));
    }

    /// <summary>BC-16: one fact of the gate unknown and nothing else against it. What was not asked is not allowed.</summary>
    [Theory]
    [InlineData("\"hole ever\": \"unsure\"", true)]
    [InlineData("\"hole ever\": \"no\"", false)]
    public void Drops_stay_shut_while_a_fact_of_their_gate_is_unknown(string hole, bool isClosed)
    {
        var assessed = ShippedAssessment.Of($"{AgeOf45}, \"blocked\": \"yes\", {hole}", isClosed);

        Assert.DoesNotContain("softening drops", assessed.Advice);
    }

    /// <summary>BC-30, the scope of NG98: 17 is handed over, 18 is not.</summary>
    [Theory]
    [InlineData(17, "within a day")]
    [InlineData(18, "look after it at home")]
    public void An_adult_is_eighteen(int age, string level) =>
        Assert.Equal(level, ShippedAssessment.Of($"\"age\": {age}, \"blocked\": \"yes\"").Level);

    /// <summary>BC-31, NHS, Earwax: with a nut allergy olive oil only. BC-39, an Australian first-aid text: nothing is poured onto an insect. BC-35: no drops on a sore ear.</summary>
    [Theory]
    [InlineData("\"blocked\": \"yes\", \"nut allergy\": \"yes\"", "no nut oil, softening drops", "")]
    [InlineData("\"something in the ear\": \"yes\", \"what is in the ear\": \"live insect\"", "leave a live insect alone, no water or drops on a thing in the ear", "softening drops")]
    [InlineData("\"swam lately\": \"yes\", \"pain\": \"yes\", \"pain strength\": 5, \"days of pain\": 1, \"blocked\": \"yes\"", "no drops until seen", "softening drops")]
    [InlineData("\"battery in the ear\": \"yes\"", "nothing in the ear for a battery", "softening drops")]
    [InlineData("\"only hearing ear\": \"yes\", \"blocked\": \"yes\"", "no drops until seen", "softening drops")]
    public void What_may_be_done_is_what_the_source_allows(string facts, string shown, string hidden)
    {
        var assessed = ShippedAssessment.Of($"{AgeOf45}, {facts}");

        Assert.Superset(shown.Split(", ").ToHashSet(), assessed.Advice.ToHashSet());
        Assert.DoesNotContain(hidden, assessed.Advice);
    }
}
