using System.Buffers;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.SignalR;
using Microsoft.AspNetCore.SignalR.Protocol;

namespace CommonGround.Benchmarks;

/// <summary>"blazorpack" is the MessagePack hub protocol under another name.</summary>
internal sealed class BlazorPack : IHubProtocol
{
    private readonly MessagePackHubProtocol inner = new();

    public string Name => "blazorpack";

    public int Version => 1;

    public TransferFormat TransferFormat => TransferFormat.Binary;

    public bool IsVersionSupported(int version) => version == 1;

    public ReadOnlyMemory<byte> GetMessageBytes(HubMessage message) => inner.GetMessageBytes(message);

    public bool TryParseMessage(ref ReadOnlySequence<byte> input, IInvocationBinder binder,
        [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out HubMessage? message) =>
        inner.TryParseMessage(ref input, binder, out message);

    public void WriteMessage(HubMessage message, IBufferWriter<byte> output) => inner.WriteMessage(message, output);
}
