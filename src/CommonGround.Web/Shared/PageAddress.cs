using Microsoft.AspNetCore.Components;

namespace CommonGround.Web.Shared;

/// <summary>Addresses of the page that is open, with another choice: on reading pages every choice is a link.</summary>
public static class PageAddress
{
    /// <summary>This page with one value of its query changed, or left out where it is null; path and query only.</summary>
    public static string HereWith(this NavigationManager navigation, string name, string? value) =>
        navigation.HereWith(new Dictionary<string, object?>(StringComparer.Ordinal) { [name] = value });

    /// <summary>The same for several values.</summary>
    public static string HereWith(this NavigationManager navigation, IReadOnlyDictionary<string, object?> values)
    {
        ArgumentNullException.ThrowIfNull(navigation);
        return new Uri(navigation.GetUriWithQueryParameters(values)).PathAndQuery;
    }
}
