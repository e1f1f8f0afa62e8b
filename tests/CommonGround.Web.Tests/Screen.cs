using AngleSharp.Dom;
using Bunit;
using CommonGround.Web.Features.Community;
using CommonGround.Web.Layout;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor.Services;

namespace CommonGround.Web.Tests;

/// <summary>Renders single components for an organiser on August 19, 2026; things are found by the words somebody reads or hears.</summary>
internal sealed class Screen : BunitContext
{
    public Screen(CurrentUser? currentUser = null)
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices();
        Services.AddSingleton(new GroupClock(TestClock.On(2026, 8, 19), "America/Chicago", null));
        RenderTree.Add<CascadingValue<CurrentUser>>(p => p.Add(c => c.Value, currentUser ?? Garden.Organiser));
    }

    /// <summary>The one button with these words, or this name for those who hear it.</summary>
    public static IElement Button(IRenderedComponent<IComponent> shown, string words) =>
        shown.FindAll("button").Single(b => Read(b) == words || b.GetAttribute("aria-label") == words);

    /// <summary>An element's words with single blanks.</summary>
    public static string Read(IElement element) => string.Join(' ',
        element.TextContent.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
