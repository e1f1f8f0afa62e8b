using Microsoft.AspNetCore.Components.Server.Circuits;

namespace CommonGround.Web.Care;

/// <summary>Counts the pages that are connected.</summary>
internal sealed class CircuitCount : CircuitHandler
{
    public override Task OnCircuitOpenedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Counted.CircuitsOpen.Add(1);
        return Task.CompletedTask;
    }

    public override Task OnCircuitClosedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Counted.CircuitsOpen.Add(-1);
        return Task.CompletedTask;
    }
}
