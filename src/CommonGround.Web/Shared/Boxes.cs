using MudBlazor;

namespace CommonGround.Web.Shared;

/// <summary>MudBlazor's fields with the one outline this site uses; their labels stand above them.</summary>
public sealed class TextBox : MudTextField<string>
{
    public TextBox() => (Variant, Margin) = (Variant.Outlined, Margin.Dense);
}

/// <inheritdoc cref="TextBox"/>
public sealed class NumberBox<T> : MudNumericField<T>
{
    public NumberBox() => (Variant, Margin, HideSpinButtons) = (Variant.Outlined, Margin.Dense, true);
}

/// <inheritdoc cref="TextBox"/>
public sealed class ChoiceBox<T> : MudSelect<T>
{
    public ChoiceBox() => (Variant, Margin) = (Variant.Outlined, Margin.Dense);
}
