using MudBlazor;

namespace CommonGround.Web.Shared;

/// <summary>Asks before something ends.</summary>
public static class Confirmation
{
    private static readonly DialogOptions Options = new()
    {
        MaxWidth = MaxWidth.ExtraSmall,
        FullWidth = true,
        CloseOnEscapeKey = true,
        BackdropClick = true
    };

    /// <summary>A question with what follows from a yes; escape, a press beside it and "Cancel" mean no.</summary>
    public static async Task<bool> ConfirmAsync(this IDialogService dialogs, string question, string whatFollows, string yes) =>
        await dialogs.ShowMessageBoxAsync(question, whatFollows, yesText: yes, cancelText: "Cancel", options: Options) is true;
}
