using System.Text.Json;
using CommonGround.Interchange.Walks;
using CommonGround.Storage.Walks;

namespace CommonGround.Web.Features.Record;

/// <summary>A statement of a walker or the desk, as it is kept.</summary>
internal static class Received
{
    public static ReceivedNote Of(WalkNote said, long yardId, long? rowId, DateTime saidAtUtc, DateTime receivedAtUtc) => new()
    {
        NeighbourhoodId = said.NeighbourhoodId,
        ClientId = said.Id,
        YardId = yardId,
        RowId = rowId,
        MemberId = said.MemberId,
        SaidAtUtc = saidAtUtc,
        ReceivedAtUtc = receivedAtUtc,
        Said = JsonSerializer.Serialize(said, WalkJson.Default.WalkNote),
    };
}
