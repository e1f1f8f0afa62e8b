using System.Reflection;

namespace CommonGround.Web.Hosting;

/// <summary>Which version of the program this is: that of <c>src/Directory.Build.props</c>.</summary>
public static class ProgramVersion
{
    public static string Text { get; } =
        typeof(ProgramVersion).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";
}
