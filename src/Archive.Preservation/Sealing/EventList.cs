using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Xml;
using Archive.Diagnostics.Rendering;

namespace Archive.Preservation.Sealing;

/// <summary>Something that was done to make a bag.</summary>
/// <param name="Type">A word of the Library of Congress's list of preservation events.</param>
/// <param name="Detail">What was done.</param>
/// <param name="Outcome">What came of it.</param>
internal sealed record PreservationEvent(string Type, string Detail, string Outcome);

/// <summary><c>events.xml</c>: what was done to make a bag, by whom and when, in the terms of PREMIS 3 (its names from memory).</summary>
internal static class EventList
{
    internal const string FileName = "events.xml";
    private const string Premis = "http://www.loc.gov/premis/v3";

    /// <summary>Writes the list.</summary>
    /// <param name="bag">Name of the bag.</param>
    /// <param name="events">What was done, in order.</param>
    /// <param name="tool">Name and version of the tool.</param>
    /// <param name="now">The date of the sealing, which all events carry.</param>
    internal static byte[] Write(string bag, ImmutableArray<PreservationEvent> events, string tool, DateTimeOffset now)
    {
        using var bytes = new MemoryStream();
        using (var xml = XmlWriter.Create(
            bytes, new XmlWriterSettings { Indent = true, NewLineChars = "\n", Encoding = new UTF8Encoding(false) }))
        {
            xml.WriteStartElement("premis", Premis);
            xml.WriteAttributeString("version", "3.0");
            Start("object");
            xml.WriteAttributeString("type", "http://www.w3.org/2001/XMLSchema-instance", "representation");
            Identifier("object", "local", bag);
            xml.WriteEndElement();
            for (var i = 0; i < events.Length; i++) Event(events[i], i + 1);
            Start("agent");
            Identifier("agent", "local", tool);
            Text("agentName", tool);
            Text("agentType", "software");
            xml.WriteEndElement();
            xml.WriteEndElement();

            void Event(PreservationEvent each, int number)
            {
                Start("event");
                Identifier("event", "local", number.ToString(CultureInfo.InvariantCulture));
                Text("eventType", each.Type);
                Text("eventDateTime", now.UtcDateTime.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture));
                Start("eventDetailInformation");
                Text("eventDetail", each.Detail);
                xml.WriteEndElement();
                Start("eventOutcomeInformation");
                Text("eventOutcome", each.Outcome);
                xml.WriteEndElement();
                Identifier("linkingAgent", "local", tool);
                xml.WriteEndElement();
            }

            void Identifier(string of, string type, string value)
            {
                Start(of + "Identifier");
                Text(of + "IdentifierType", type);
                Text(of + "IdentifierValue", value);
                xml.WriteEndElement();
            }

            void Text(string name, string value) => xml.WriteElementString(name, Premis, VisibleText.Text(value));

            void Start(string name) => xml.WriteStartElement(name, Premis);
        }

        bytes.WriteByte((byte)'\n');
        return bytes.ToArray();
    }
}
