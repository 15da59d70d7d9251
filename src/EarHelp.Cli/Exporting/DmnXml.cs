using System.Text;
using System.Xml;
using EarHelp.Triage.Editions;
using EarHelp.Triage.Facts;
using EarHelp.Triage.Rules;

namespace EarHelp.Cli.Exporting;

/// <summary>The decision tables of an edition in the namespace of OMG DMN 1.3.</summary>
/// <remarks>An input is null where its fact does not apply; a null meets no cell but <c>-</c>.</remarks>
static class DmnXml
{
    const string Model = "https://www.omg.org/spec/DMN/20191111/MODEL/";

    public static string Write(Edition edition)
    {
        var text = new StringBuilder();
        using (var xml = XmlWriter.Create(text, new XmlWriterSettings { Indent = true, OmitXmlDeclaration = true }))
        {
            xml.WriteStartElement("definitions", Model);
            xml.WriteAttributeString("id", $"edition-{edition.Id}");
            xml.WriteAttributeString("name", edition.Dialog.Id);
            xml.WriteAttributeString("namespace", $"urn:earhelp:{edition.Id}");
            foreach (var fact in edition.Dialog.Facts)
                WriteInput(xml, fact);
            foreach (var table in new DmnTables(edition.Dialog).All())
                WriteDecision(xml, table, edition.Dialog);
            xml.WriteEndElement();
        }

        return text.Append('\n').ToString();
    }

    static void WriteInput(XmlWriter xml, Fact fact)
    {
        xml.WriteStartElement("inputData", Model);
        xml.WriteAttributeString("id", IdOf(fact));
        xml.WriteAttributeString("name", fact.DecidingId);
        xml.WriteStartElement("variable", Model);
        xml.WriteAttributeString("name", fact.DecidingId);
        xml.WriteAttributeString("typeRef", TypeOf(fact.Values));
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    static void WriteDecision(XmlWriter xml, DmnTable table, Dialog dialog)
    {
        xml.WriteStartElement("decision", Model);
        xml.WriteAttributeString("id", table.Id);
        xml.WriteAttributeString("name", table.Name);
        foreach (var input in table.Inputs)
        {
            xml.WriteStartElement("informationRequirement", Model);
            xml.WriteStartElement(input.IsNamedFact ? "requiredDecision" : "requiredInput", Model);
            xml.WriteAttributeString("href", $"#{(input.IsNamedFact ? DmnTables.IdOf(dialog.NamedFacts[input.Index]) : IdOf(dialog.Facts[input.Index]))}");
            xml.WriteEndElement();
            xml.WriteEndElement();
        }

        WriteTable(xml, table, dialog);
        xml.WriteEndElement();
    }

    static void WriteTable(XmlWriter xml, DmnTable table, Dialog dialog)
    {
        xml.WriteStartElement("decisionTable", Model);
        xml.WriteAttributeString("hitPolicy", table.HitPolicy);
        foreach (var input in table.Inputs)
        {
            xml.WriteStartElement("input", Model);
            xml.WriteStartElement("inputExpression", Model);
            xml.WriteAttributeString("typeRef", TypeOf(ValuesOf(dialog, input)));
            xml.WriteElementString("text", Model, NameOf(dialog, input));
            xml.WriteEndElement();
            xml.WriteEndElement();
        }

        foreach (var output in table.Outputs)
            WriteOutput(xml, output);
        foreach (var row in table.Rows)
            WriteRow(xml, row, table, dialog);
        xml.WriteEndElement();
    }

    static void WriteOutput(XmlWriter xml, DmnOutput output)
    {
        xml.WriteStartElement("output", Model);
        xml.WriteAttributeString("name", output.Name);
        if (!output.Values.IsEmpty)
            WriteText(xml, "outputValues", string.Join(", ", output.Values));
        if (output.Default is { } otherwise)
            WriteText(xml, "defaultOutputEntry", otherwise);
        xml.WriteEndElement();
    }

    static void WriteRow(XmlWriter xml, DmnRow row, DmnTable table, Dialog dialog)
    {
        xml.WriteStartElement("rule", Model);
        if (row.Annotation.Length > 0)
            xml.WriteElementString("description", Model, row.Annotation);
        foreach (var input in table.Inputs)
        {
            // Several conditions on one fact: the values that meet all of them.
            var told = row.Conditions.Where(c => c.Of == input).Select(c => c.Values).ToArray();
            WriteText(xml, "inputEntry", told.Length == 0 ? "-" : FeelCell.Of(told.Aggregate((all, one) => all.Intersect(one)), ValuesOf(dialog, input)));
        }

        foreach (var result in row.Results)
            WriteText(xml, "outputEntry", result);
        xml.WriteEndElement();
    }

    static void WriteText(XmlWriter xml, string element, string text)
    {
        xml.WriteStartElement(element, Model);
        xml.WriteElementString("text", Model, text);
        xml.WriteEndElement();
    }

    static string IdOf(Fact fact) => FormattableString.Invariant($"fact-{fact.Index + 1}");

    static string NameOf(Dialog dialog, FactReference of) => of.IsNamedFact ? dialog.NamedFacts[of.Index].Id : dialog.Facts[of.Index].DecidingId;

    static FactValues ValuesOf(Dialog dialog, FactReference of) => of.IsNamedFact ? dialog.NamedFacts[of.Index].Values : dialog.Facts[of.Index].Values;

    static string TypeOf(FactValues values) => values is FactValues.Numbers ? "number" : "string";
}
