using System.Globalization;
using System.Runtime.CompilerServices;

namespace CommonGround.Planning.Tests.Conversion;

/// <summary>Words are written in the invariant culture, as the program sets it at start, whatever the machine speaks.</summary>
internal static class InvariantCulture
{
#pragma warning disable CA2255 // A test project may: there is no start of the program here.
    [ModuleInitializer]
#pragma warning restore CA2255
    internal static void Set() => CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
}
