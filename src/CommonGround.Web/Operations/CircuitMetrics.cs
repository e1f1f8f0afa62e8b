using Microsoft.AspNetCore.Components.Server.Circuits;

namespace CommonGround.Web.Operations;

/// <summary>Counts the pages that are connected.</summary>
internal sealed class CircuitMetrics : CircuitHandler
{
    public override Task OnCircuitOpenedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Metrics.CircuitsOpen.Add(1);
        return Task.CompletedTask;
    }

    public override Task OnCircuitClosedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Metrics.CircuitsOpen.Add(-1);
        return Task.CompletedTask;
    }
}
