using CommonGround.Web.Hosting;
using System.CommandLine;
using CommonGround.Storage;
using CommonGround.Web.Features.Community;
using Microsoft.EntityFrameworkCore;

namespace CommonGround.Web.Commands;

/// <summary>The commands of the host; none of them is named means: serve the site.</summary>
public static class CommandLine
{
    private static readonly Option<string?> Data = new("--data")
    {
        Description = "Folder with the database, photos and logs",
        Recursive = true
    };
    private static readonly Option<bool> NoDemo = new("--no-demo")
    {
        Description =
        "A new folder starts empty instead of with the invented neighbourhood",
        Recursive = true
    };
    private static readonly Option<string?> Demo = new("--demo")
    {
        Description =
        "Which invented neighbourhood a new folder gets: quarry-bend (northern Illinois, the default) or sycamore-hollow (Missouri, small)",
        Recursive = true
    };
    private static readonly Option<string?> Neighbourhood =
        new("--neighbourhood")
        {
            Description = "Name of the neighbourhood a command is about, where there are several; else the first",
            Recursive = true
        };
    private static readonly Option<bool> Quiet = new("--quiet") { Description = "No progress, no summaries", Recursive = true };

    public static async Task<int> RunAsync(string[] args)
    {
        var root = new RootCommand(
            "The shared record of a neighbourhood's native plantings. Without a command it serves the site.")
        { TreatUnmatchedTokensAsErrors = false };
        root.Options.Add(Data);
        root.Options.Add(NoDemo);
        root.Options.Add(Demo);
        root.Options.Add(Neighbourhood);
        root.Options.Add(Quiet);
        foreach (var command in Commands())
        {
            root.Subcommands.Add(command);
        }

        root.SetAction(async (parsed, _) =>
        {
            // Settings for the site begin with dashes; a word alone is a command with a slip in it.
            if (parsed.UnmatchedTokens is [var word, ..] && !word.StartsWith('-'))
            {
                return Refuse($"There is no command '{word}'. --help lists the commands.");
            }

            await SiteHost.RunAsync([.. parsed.UnmatchedTokens, .. Configured(parsed)]);
            return 0;
        });
        var result = root.Parse(args);
        if (result.Errors.Count > 0)
        {
            return Refuse(result.Errors[0].Message);
        }

        try
        {
            return await result.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
        }
        catch (DataFolderException e)
        {
            return Refuse(e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or System.Data.Common.DbException
            or InvalidOperationException { Source: "CommonGround.Web" })
        {
            return Refuse(e.Message);
        }
    }

    public static IEnumerable<Command> Commands() => [BeginCommand.Create(), ImportCommand.Create(), MeasuresCommand.Create(),
        ReportCommand.Create(), PlanCommand.Create(), WorkDayCommand.Create(), ExportCommand.Create(), .. OperationsCommands.Create()];

    /// <summary>One line on standard error, and the exit code that says no.</summary>
    internal static int Refuse(string reason)
    {
        Console.Error.WriteLine(reason.ReplaceLineEndings(" "));
        return 1;
    }

    internal static bool IsQuiet(ParseResult parsed) => parsed.GetValue(Quiet);

    internal static SiteOptions Options(ParseResult parsed)
    {
        var configuration = new ConfigurationBuilder().AddJsonFile(Path.Combine(AppContext.BaseDirectory, "appsettings.json"),
            optional: true).AddEnvironmentVariables().AddCommandLine([.. Configured(parsed)]).Build();
        return SiteOptions.From(configuration, ContentRoot());
    }

    /// <summary>Opens the data folder and gives a command the services the pages have.</summary>
    internal static async Task<ServiceProvider> OpenAsync(ParseResult parsed, CancellationToken cancel,
        Func<SiteOptions, SiteOptions>? with = null)
    {
        var options = with is null ? Options(parsed) : with(Options(parsed));
        var opened = await SiteStartup.OpenAsync(options, TimeProvider.System, cancel);
        var services = new ServiceCollection().AddSingleton(options).AddSingleton(opened.Neighbourhoods).AddSingleton(opened.Database);
        SiteHost.AddFeatures(services);
        var provider = services.BuildServiceProvider();
        provider.GetRequiredService<NeighbourhoodContext>().Use(Named(opened.Neighbourhoods,
            parsed.GetValue(Neighbourhood)).Neighbourhood.Id);
        return provider;
    }

    /// <summary>The neighbourhood a command is about: the one named, else the first.</summary>
    private static Place Named(Neighbourhoods all, string? name) => name is null ? all.All[0]
        : all.All.FirstOrDefault(p => p.Neighbourhood.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
        ?? throw new DataFolderException($"There is no neighbourhood '{name}'. There are: "
        + $"{string.Join(", ", all.All.Select(p => p.Neighbourhood.Name))}.");

    private static IEnumerable<string> Configured(ParseResult parsed)
    {
        if (parsed.GetValue(Data) is { } data)
        {
            yield return $"--data={data}";
        }

        if (parsed.GetValue(NoDemo))
        {
            yield return "--no-demo=true";
        }

        if (parsed.GetValue(Demo) is { } demo)
        {
            yield return $"--demo={demo}";
        }
    }

    /// <summary>Where the site looks too: the project when run from it, else the working folder.</summary>
    private static string ContentRoot() => Directory.GetCurrentDirectory() is var here
        && File.Exists(Path.Combine(here, "src", "CommonGround.Web", "CommonGround.Web.csproj"))
        ? Path.Combine(here, "src", "CommonGround.Web")
        : here;
}
