using CommonGround.Reports.Charts;
using CommonGround.Reports.Layout;
using CommonGround.Reports.YardReports;

namespace CommonGround.Reports.InvitationSlips;

/// <summary>What stands on one slip of paper that invites one person.</summary>
/// <param name="ForWhom">A word that tells the slips apart when they are handed out.</param>
/// <param name="Code">To be typed where there is no camera.</param>
/// <param name="Link">What the QR code opens.</param>
public sealed record InvitationSlip(string ForWhom, string Code, string Link);

/// <summary>Writes invitations as slips on as few sheets as they need, to be cut apart and handed out.</summary>
/// <remarks>Safe to call from several threads at once; nothing is kept between calls but the fonts' bytes.</remarks>
public static class InvitationSlipsDocument
{
    private const double CodeWidth = 96, Space = 16;

    /// <summary>Writes the PDF.</summary>
    /// <param name="neighbourhood">Its name.</param>
    /// <param name="joinAddress">Where a code is typed in.</param>
    /// <param name="until">Last day they work.</param>
    /// <param name="slips">One or more.</param>
    /// <param name="paper">Letter or A4.</param>
    /// <param name="to">Written forward only and left open.</param>
    public static void Write(string neighbourhood, string joinAddress, DateOnly until, IReadOnlyList<InvitationSlip> slips, PaperSize paper,
        Stream to)
    {
        ArgumentNullException.ThrowIfNull(slips);
        ArgumentNullException.ThrowIfNull(to);
        var sheet = Sheet.Of(paper);
        using var set = new Typesetter();
        TaggedDocument.Write(to, sheet, new Masthead($"Invitations · until {Wording.Date(until)}", neighbourhood,
            "Each slip lets one person in, once. Cut them apart and hand each to its own household."), set,
            [.. slips.Select(s => Slip(set, sheet.TextWidth, neighbourhood, joinAddress, until, s))]);
    }

    private static Flow Slip(Typesetter set, double width, string neighbourhood, string joinAddress, DateOnly until, InvitationSlip slip)
    {
        var left = width - CodeWidth - Columns.Gap;
        return Columns.Lay(
            [
                Prose.H2(set, left, $"You are invited to {neighbourhood}"),
                Prose.Body(set, left, $"Point your telephone’s camera at the code, or open {joinAddress} and type {slip.Code}."),
                Prose.Small(set, left, $"For {slip.ForWhom}. One person, once, until {Wording.Date(until)}. You see your own yard; you "
                    + "decide whether it counts in what everyone sees of its block."),
            ], left, [Picture.Of(QrChart.Draw(slip.Link, $"the page where {slip.ForWhom} joins {neighbourhood}"), CodeWidth)])
            with
        { SpaceBefore = Space };
    }
}
