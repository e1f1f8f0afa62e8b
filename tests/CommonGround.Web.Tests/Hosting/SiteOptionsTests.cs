using CommonGround.Web.Commands;
using CommonGround.Web.Hosting;
using Microsoft.Extensions.Configuration;

namespace CommonGround.Web.Tests.Hosting;

public class SiteOptionsTests
{
    [Fact]
    public void Without_settings_the_data_lie_beside_the_program_in_SQLite_with_the_demo()
    {
        var options = From();
        options.DataFolder.ShouldBe(Path.GetFullPath("/root-of-content/data"));
        (options.Demo, options.Storage.Provider, options.GroupName,
            options.TimeZone).ShouldBe((true, "sqlite", "Our neighbourhood", "America/Chicago"));
        From(("no-demo", "true")).Demo.ShouldBeFalse();
        From(("data", "/elsewhere")).Storage.ConnectionString.ShouldBe($"Data Source={Path.GetFullPath("/elsewhere/commonground.db")}");
    }

    [Fact]
    public void Run_from_its_source_the_data_lie_outside_of_what_is_published()
    {
        using var source = new TempFolder();
        Directory.CreateDirectory(source.File("src/Web"));
        File.WriteAllText(source.File("src/Web/CommonGround.Web.csproj"), "<Project/>");
        SiteOptions Here() => SiteOptions.From(new ConfigurationBuilder().Build(), source.File("src/Web"));
        Here().DataFolder.ShouldBe(source.File(".data"));
        Directory.CreateDirectory(source.File("src/Web/data"));
        File.WriteAllText(source.File("src/Web/data/commonground.db"), "a record from before");
        Here().DataFolder.ShouldBe(source.File("src/Web/data"));
    }

    [Fact]
    public void PostgreSQL_needs_to_be_told_where_it_is()
    {
        From(("Database:Provider", "postgres"), ("Database:Connection", "Host=db")).Storage.ConnectionString.ShouldBe("Host=db");
        Should.Throw<InvalidOperationException>(() => From(("Database:Provider", "postgres"))).Message.ShouldContain("Database:Connection");
    }

    [Theory]
    [InlineData("Database:Provider", "oracle", "sqlite or postgres")]
    [InlineData("Group:TimeZone", "Mars/Olympus", "Group:TimeZone")]
    public void A_setting_nobody_knows_is_refused_with_what_to_write(string name, string value, string said)
    {
        var refusal = Should.Throw<DataFolderException>(() => From((name, value), ("Database:Connection", "x")));
        refusal.Message.ShouldContain(value);
        refusal.Message.ShouldContain(said);
    }

    private static SiteOptions From(params (string Name, string Value)[] settings) =>
        SiteOptions.From(new ConfigurationBuilder().AddInMemoryCollection(settings.ToDictionary(s => s.Name, s => (string?)s.Value))
            .Build(), "/root-of-content");
}
