using System.ComponentModel;
using System.Diagnostics;
using Groundstation.Io.Exports;
using Xunit;

namespace Groundstation.Published.Exports;

/// <summary>GPX and KML against their published schemas (<c>data/schemas</c>), as xmllint judges them.</summary>
public class SchemaTests
{
    public static TheoryData<string> Maps => [.. Exports.Maps.Names];

    [Theory, MemberData(nameof(Maps))]
    public void Gpx_is_valid_against_GPX_1_1(string map) =>
        Validate("gpx.xsd", stream => Gpx.Write(stream, Exports.Maps.Of(map)));

    [Theory, MemberData(nameof(Maps))]
    public void Kml_is_valid_against_OGC_KML_2_2(string map) =>
        Validate("ogckml22.xsd", stream => Kml.Write(stream, Exports.Maps.Of(map)));

    [Fact]
    public void The_schemas_reject_what_is_wrong()
    {
        static void Wrong(Stream to, string xml) => to.Write(System.Text.Encoding.UTF8.GetBytes(xml));
        Assert.False(IsValid("gpx.xsd", to => Wrong(to, "<gpx xmlns='http://www.topografix.com/GPX/1/1' "
            + "version='1.1' creator='x'><wpt lat='91' lon='0'/></gpx>"), out _));
        Assert.False(IsValid("ogckml22.xsd", to => Wrong(to, "<kml xmlns='http://www.opengis.net/kml/2.2'>"
            + "<Placemark><Point><coordinates>1,2</coordinates></Point><name>late</name></Placemark></kml>"), out _));
    }

    private static void Validate(string schema, Action<Stream> write) =>
        Assert.True(IsValid(schema, write, out string said), said);

    private static bool IsValid(string schema, Action<Stream> write, out string said)
    {
        string schemas = Path.Combine(AppContext.BaseDirectory, "data", "schemas");
        ProcessStartInfo start = new("xmllint",
            ["--nonet", "--catalogs", "--noout", "--schema", Path.Combine(schemas, schema), "-"])
        {
            RedirectStandardInput = true,
            RedirectStandardError = true,
            Environment = { ["XML_CATALOG_FILES"] = Path.Combine(schemas, "catalog.xml") },
        };
        Process xmllint;
        try
        {
            xmllint = Process.Start(start)!;
        }
        catch (Win32Exception)
        {
            Assert.Skip("needs xmllint");
            throw;
        }

        using (xmllint)
        {
            Task<string> error = xmllint.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            using (MemoryStream document = new())
            {
                write(document);
                xmllint.StandardInput.BaseStream.Write(document.ToArray());
            }

            xmllint.StandardInput.Close();
            xmllint.WaitForExit();
            said = error.GetAwaiter().GetResult();
            return xmllint.ExitCode == 0;
        }
    }
}
