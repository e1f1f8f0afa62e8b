using System.Globalization;
using CommonGround.Web.Commands;

// Figures are written the same way everywhere; the page says its units in words.
CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.CurrentUICulture = CultureInfo.InvariantCulture;
return await CommandLine.RunAsync(args);

public partial class Program;
