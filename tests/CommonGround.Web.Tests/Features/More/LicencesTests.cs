using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using CommonGround.Web.Features.More;

namespace CommonGround.Web.Tests.Features.More;

/// <summary>The list of licences names what is used, whole and as it is.</summary>
[Collection(SiteTests.Name)]
public sealed class LicencesTests(DemoSite site)
{
    private static readonly string Root = TempFolder.Repository();
    private static readonly IReadOnlyList<LicensedPackage> Listed =
        Licences.Read(File.ReadLines(Path.Combine(Root, "docs", "licences.md")));

    [Fact]
    public void Every_package_of_the_program_stands_in_the_list_in_its_version()
    {
        using var locked = JsonDocument.Parse(File.ReadAllText(Path.Combine(Root, "src/CommonGround.Web/packages.lock.json")));
        var used = locked.RootElement.GetProperty("dependencies").EnumerateObject().SelectMany(f => f.Value.EnumerateObject())
            .Where(p => p.Value.GetProperty("type").GetString() != "Project")
            .Select(p => (p.Name, p.Value.GetProperty("resolved").GetString()!)).Distinct().ToList();
        used.Count.ShouldBeGreaterThan(40);
        Listed.Where(p => p.Part == "In the program").Select(p => (p.Name, p.Version)).ShouldBe(used, ignoreOrder: true);
    }

    [Fact]
    public void Every_package_that_is_asked_for_stands_in_the_list()
    {
        var asked = XDocument.Load(Path.Combine(Root, "src/Directory.Packages.props")).Descendants()
            .Where(e => e.Name.LocalName is "PackageVersion" or "GlobalPackageReference")
            .Select(e => (e.Attribute("Include")!.Value, e.Attribute("Version")!.Value)).ToList();
        using var fonts = JsonDocument.Parse(File.ReadAllText(Path.Combine(Root, "src/CommonGround.Assets/package.json")));
        asked.AddRange(fonts.RootElement.GetProperty("dependencies").EnumerateObject().Select(p => (p.Name, p.Value.GetString()!)));
        asked.Count.ShouldBeGreaterThan(35);
        asked.Except(Listed.Select(p => (p.Name, p.Version))).ShouldBeEmpty();
    }

    // What a package's own metadata says, where it is restored on this machine.
    [Fact]
    public void The_licence_is_the_one_the_package_itself_names()
    {
        var packages = Environment.GetEnvironmentVariable("NUGET_PACKAGES")
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
        var compared = 0;
        foreach (var package in Listed)
        {
            var folder = Path.Combine(packages, package.Name.ToLowerInvariant(), package.Version);
            if (!package.Name.StartsWith('@') && Directory.Exists(folder))
            {
                TermsOf(folder).ShouldBe(package.Terms, package.Name);
                compared++;
            }
        }

        compared.ShouldBeGreaterThan(40);
    }

    /// <summary>An SPDX identifier; or a text that came along, known by its own words (opensource.org/license/mit).</summary>
    private static string TermsOf(string folder)
    {
        var named = Regex.Match(File.ReadAllText(Directory.GetFiles(folder, "*.nuspec").Single()),
            "<license type=\"(expression|file)\"[^>]*>([^<]+)<");
        var text = named.Groups[1].Value == "file" ? File.ReadAllText(Path.Combine(folder, named.Groups[2].Value)) : "";
        return text.Contains("Permission is hereby granted, free of charge", StringComparison.Ordinal) ? "MIT" : named.Groups[2].Value;
    }

    [Fact]
    public async Task The_page_shows_the_list_to_everybody_and_the_file_travels_with_the_program()
    {
        using var browser = site.Browser("visitor");
        var page = await browser.GetStringAsync("/more/licences");
        Listed.Count.ShouldBeGreaterThan(50);
        foreach (var package in Listed)
        {
            page.ShouldContain(System.Net.WebUtility.HtmlEncode(package.Name));
        }

        page.ShouldContain("OFL-1.1");
        (await File.ReadAllTextAsync(Licences.Path)).ShouldBe(await File.ReadAllTextAsync(Path.Combine(Root, "docs", "licences.md")));
    }
}
