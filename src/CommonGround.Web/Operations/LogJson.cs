using System.Text.RegularExpressions;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Compact;

namespace CommonGround.Web.Operations;

/// <summary>One line of JSON per event. The program logs numbers, never people; should a library's message carry an e-mail address, it is
/// taken out here.</summary>
public sealed partial class LogJson : ITextFormatter
{
    private readonly CompactJsonFormatter plain = new();

    public void Format(LogEvent logEvent, TextWriter output)
    {
        using var line = new StringWriter();
        plain.Format(logEvent, line);
        output.Write(Address().Replace(line.ToString(), "(e-mail)"));
    }

    [GeneratedRegex(@"[\p{L}\p{N}._%+'-]+@[\p{L}\p{N}-]+(\.[\p{L}\p{N}-]+)+", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Address();
}
